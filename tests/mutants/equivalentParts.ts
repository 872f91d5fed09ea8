import type { Equivalent } from "./equivalent.ts";

const NO_KIND = "a word has no kind, so that nothing is found by it";
const THERE = "always there; only the type checker cannot know";
const STRAIGHT = "the needle's shape says the same of its straight part";
const APART = "no two figures of a sheet are apart by exactly this double";

type Row = readonly [from: string, to: string, why: string, near?: string];
const of = (file: string, ...rows: readonly Row[]): readonly Equivalent[] =>
  rows.map(([from, to, why, near]) => ({
    file: `tuning/${file}.ts`,
    from,
    to,
    why,
    ...(near === undefined ? {} : { near }),
  }));

/** What no test can kill of described parts, needles and rides: see equivalent.ts. */
export const PARTS: readonly Equivalent[] = [
  ...of(
    "flowFigures",
    ["[]", '["Stryker was here"]', NO_KIND, "parts ?? []"],
    ["() => is", "() => undefined", "what is shown is given; the value is not asked for"],
  ),
  ...of(
    "partChange",
    ["default: return null;", "default:", "a filter or silencer has no settings and does not come so far"],
    ["[]", '["Stryker was here"]', "no setting is called so"],
    ["b === undefined", "false", "a setting that is not said is left out before"],
    ["Math.abs(a - b) > SAME", "Math.abs(a - b) >= SAME", APART],
    ["freeMm > part.freeMm + SAME", "freeMm >= part.freeMm + SAME", APART],
  ),
  ...of("wearLimits", [
    '""',
    '"Stryker was here!"',
    "a limit that is stricter has said where it is from",
    "limit?.from",
  ]),
  ...of(
    "wearLimits",
    ["limit?.from", "limit.from", THERE],
    ["straight !== null && station <= straight", "false", STRAIGHT],
    ["straight !== null", "true", STRAIGHT],
    ["straight !== null", "straight === null", STRAIGHT],
    ["station <= straight", "station < straight", STRAIGHT],
  ),
  ...of("complaints", ["[]", '["Stryker was here"]', "what is no setting decides nothing"]),
  ...of(
    "firstLook",
    ["pressures.length > 1", "true", "one pressure is as high as the highest, and none is less than none"],
    ["pressures.length > 1", "pressures.length >= 1", "one pressure is as high as the highest"],
  ),
  ...of("workedParts", ["[]", '["Stryker was here"]', NO_KIND]),
];
