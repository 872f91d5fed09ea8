import type { Equivalent } from "./equivalent.ts";

const THERE = "always there; only the type checker cannot know";
const EXACT = "no value of the calculation is exactly this double";
const SOONER = "a settled fraction only ends sooner: another round changes it by less than its last digit";

type Row = readonly [from: string, to: string, why: string, near?: string];
const of = (file: string, ...rows: readonly Row[]): readonly Equivalent[] =>
  rows.map(([from, to, why, near]) => ({
    file: `tuning/${file}.ts`,
    from,
    to,
    why,
    ...(near === undefined ? {} : { near }),
  }));

/** What no test can kill of the fuel model and of pulls: see equivalent.ts. */
export const MODEL: readonly Equivalent[] = [
  ...of("airSide", [
    "(s.springLengthMm ?? 0) > was",
    "(s.springLengthMm ?? 0) >= was",
    "the same length is no longer one either way",
  ]),
  ...of(
    "regions",
    ["rows[0] ?? []", "rows[0] && []", "the first row stands at nothing, where it is answered itself"],
    ["x1 >= at", "x1 > at", "at a place of the table the rows on either side answer the same"],
  ),
  ...of(
    "fuelCurve",
    ["[]", '["Stryker was here"]', THERE, "ventCases: r.vents"],
    ["[]", '["Stryker was here"]', THERE, "cases: open.map"],
    ["cases[k]?.push", "cases[k].push", THERE],
    ["others[k]?.push", "others[k].push", THERE],
    ["first?.now", "first.now", THERE],
  ),
  ...of(
    "dyno",
    ["[]", '["Stryker was here"]', THERE, "rows[0] ?? []"],
    ["[at, 0]", "[]", THERE],
    ["[at, y0]", "[]", THERE],
    ["points[k]?.[0]", "points[k][0]", THERE],
  ),
  ...of(
    "gainTest",
    ["chance < FALSE_ALARM", "chance <= FALSE_ALARM", EXACT],
    ["spread < 1e-20", "spread <= 1e-20", EXACT],
    [
      "tFurther(gain / Math.sqrt(variances / n), 2 * n - 2) < FALSE_ALARM",
      "tFurther(gain / Math.sqrt(variances / n), 2 * n - 2) <= FALSE_ALARM",
      EXACT,
    ],
  ),
  ...of(
    "power",
    ["european >= 0.93", "european > 0.93", EXACT],
    ["european <= 1.07", "european < 1.07", EXACT],
    ["factor >= 0.93", "factor > 0.93", EXACT],
    ["factor <= 1.07", "factor < 1.07", EXACT],
  ),
  ...of(
    "studentT",
    ["m <= 300", "m < 300", SOONER],
    ["Math.abs(c * d - 1) < 1e-14", "false", SOONER],
    ["Math.abs(c * d - 1) < 1e-14", "Math.abs(c * d - 1) <= 1e-14", SOONER],
    ["c * d - 1", "c * d + 1", SOONER],
    ["c * d", "c / d", SOONER, "if (Math.abs"],
    ["i < 60", "i <= 60", "one more halving of a span that is below the last digit"],
    ["tFurther(high, freedom) > probability", "tFurther(high, freedom) >= probability", EXACT],
    ["tFurther(middle, freedom) > probability", "tFurther(middle, freedom) >= probability", EXACT],
  ),
  ...of(
    "pullText",
    ['""', '"Stryker was here!"', "a pair that was found has both", "PAIR.exec"],
    ["[]", '["Stryker was here"]', "what is in front of a pair is not read", "PAIR.exec"],
  ),
];
