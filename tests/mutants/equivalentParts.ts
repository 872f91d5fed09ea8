import type { Equivalent } from "./equivalent.ts";

const NO_KIND = "a word has no kind, so that nothing is found by it";
const THERE = "always there; only the type checker cannot know";
const STRAIGHT = "the needle's shape says the same of its straight part";
const NO_TIE = "it decides between stacks that lose exactly alike, and none do";
const EXACT = "no difference is exactly this double";
const PLACED = "work along a needle that cannot be placed is refused before";
const TURN = "halving ends at the same turn, to a millionth";
const NO_NUMBER = "what is undefined is neither more nor less than a number";
const NO_SLIDE = "a mechanical slide has no spring: nothing reads it";
const LISTED = "which facts are whole numbers is a list of its own";
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
  ...of(
    "needlePosition",
    ["[...new Map(stacks…", "[...new Map(stacks…", NO_TIE],
    ["(a, b) => a.mm - b.mm", "() => undefined", NO_TIE],
    ["a.mm - b.mm", "a.mm + b.mm", NO_TIE],
    ["[]", '["Stryker was here"]', THERE, "chosen?.shims"],
    ["chosen?.mm", "chosen.mm", THERE],
    ["chosen?.shims", "chosen.shims", THERE],
    ["stay && best", "true", THERE],
    ["stay && best", "stay || best", THERE],
    ["mm >= 0", "mm > 0", "no shim is in the drawer's bounds either way"],
    ["mm >= 0", "false", "what is put in needs nothing to be taken out"],
    ["-mm <= from + 1e-9", "-mm < from + 1e-9", "no stack is off by exactly this double"],
    [
      "stay.loss > best.loss + TIE",
      "stay.loss >= best.loss + TIE",
      "no two losses are apart by exactly this double",
    ],
    ["differenceMm > 0", "differenceMm >= 0", "where it stays nothing is asked", "differenceMm"],
    [
      "errors.reduce((sum, e) => sum + e, 0) / errors.length",
      "errors.reduce((sum, e) => sum + e, 0) * errors.length",
      NO_TIE,
    ],
    ["(sum, e) => sum + e", "() => undefined", NO_TIE],
    ["sum + e", "sum - e", NO_TIE],
  ),
  ...of(
    "needleAsked",
    ["asked", "true", "no height stands among what is computed unless one is asked", "if (asked)"],
    ["known?.how", "known.how", THERE],
  ),
  ...of(
    "needlePoints",
    ["[false, false]", "[]", "what is undefined is as little true"],
    ["difference < -sameMm", "difference <= -sameMm", EXACT],
    ["difference > sameMm", "difference >= sameMm", EXACT],
  ),
  ...of(
    "needleRecord",
    ["!first || !last", "!first && !last", "a needle has both or neither"],
    ["corner.atMm < first.atMm - APART_MM", "corner.atMm <= first.atMm - APART_MM", EXACT],
    ["corner.atMm > last.atMm + APART_MM", "corner.atMm >= last.atMm + APART_MM", EXACT],
    [
      "first.diameterMm - s.diameterMm <= step + 1e-9",
      "first.diameterMm - s.diameterMm < step + 1e-9",
      EXACT,
    ],
    ["s.atMm >= atMm - 1e-9", "s.atMm > atMm - 1e-9", EXACT],
    ["s.atMm <= atMm + 1e-9", "s.atMm < atMm + 1e-9", EXACT],
    ["atMm + 1e-9", "atMm - 1e-9", "at a station the cones on either side are as thick", "findLast"],
    ["below.atMm - above.atMm < 1e-9", "below.atMm - above.atMm <= 1e-9", EXACT],
  ),
  ...of(
    "needleReadings",
    [
      "Math.abs(one.atMm - read.atMm) >= SAME_PLACE_MM",
      "Math.abs(one.atMm - read.atMm) > SAME_PLACE_MM",
      EXACT,
    ],
    ["first.diameterMm - s.diameterMm <= step", "first.diameterMm - s.diameterMm < step", EXACT],
    ["first.atMm <= endMm + SAME_PLACE_MM", "first.atMm < endMm + SAME_PLACE_MM", EXACT],
  ),
  ...of("needleRecord", ["below?.atMm === above?.atMm", "false", "one station twice says the same as once"]),
  ...of(
    "needleTarget",
    ['work.kind === "exchange"', "false", "an exchange has no gauge"],
    ['"exchange"', '""', "an exchange has no gauge", "gaugeMm"],
    ["before.planeMm !== undefined && after.planeMm !== undefined", "true", PLACED],
    [
      "before.planeMm !== undefined && after.planeMm !== undefined",
      "before.planeMm !== undefined || after.planeMm !== undefined",
      PLACED,
    ],
    ["before.planeMm !== undefined", "true", PLACED],
    ["after.planeMm !== undefined", "true", PLACED],
  ),
  ...of(
    "needleWork",
    ["diameterMm > now + OVER_MM", "diameterMm >= now + OVER_MM", EXACT],
    ["kept.length === 0", "false", "no place lies so near to the shoulder"],
    ["place - (kept.at(-1) ?? 0) >= 0.06", "place - (kept.at(-1) ?? 0) > 0.06", EXACT],
  ),
  ...of(
    "unknownCases",
    ["was === undefined", "false", "what the package sets stands in for it", "was === undefined || !unsure"],
    ["by < 0", "by <= 0", "it is half a millimetre either way"],
    ["now < found", "now <= found", "the same length was answered before"],
    ["was === undefined", "false", "no groove lies beside none", "clip === was"],
  ),
  ...of(
    "screw",
    ["model - from >= 0", "model - from > 0", EXACT],
    ["wanted > high", "wanted >= high", EXACT],
    ["i < 20", "i <= 20", "one more halving of a millionth of a turn"],
    ["error(middle) < 0", "error(middle) <= 0", TURN],
  ),
  ...of(
    "slideFacts",
    ["{ rateNPerM: 100, freeM: 0.106, coils: undefined }", "{}", NO_SLIDE],
    ["false", "true", NO_SLIDE, "springPlaceKnown"],
    ["() => rateNPerM", "() => undefined", "what is shown is given; the value is not asked for"],
  ),
  ...of("airSide", ["cylinders < 2.5", "cylinders <= 2.5", "no engine has two and a half to a carburettor"]),
  ...of("regions", ["[]", '["Stryker was here"]', THERE]),
  ...of(
    "modelFacts",
    ["step >= 1 && Number.isInteger(low)", "true", LISTED],
    ["step >= 1 && Number.isInteger(low)", "step >= 1 || Number.isInteger(low)", LISTED],
    ["step >= 1", "true", LISTED],
  ),
  ...of("modelCardFacts", ['"assumed"', '""', "one of the four ways is always among them", "order.find"]),
  ...of(
    "correctionStep",
    ["sheet.grooves !== undefined", "true", NO_NUMBER, "plain.to > sheet.grooves"],
    ["[]", '["Stryker was here"]', "a word is no shim that is free", "sheet.shims"],
    ["sense < 0", "sense <= 0", "a sense is up or down"],
    [
      'lever.key === "mainJet" || lever.key === "pilotJet"',
      "true",
      "of what is no jet no drawer is known, and the plain step is made",
    ],
    ["from >= size - 1e-9", "from > size - 1e-9", EXACT],
  ),
  ...of(
    "correction",
    ["to === null", "false", "nothing was tried without a value", "sheet.tried"],
    ["sense > 0", "sense >= 0", "a sense is up or down"],
    ["accepted === undefined", "false", NO_NUMBER],
    ["Math.abs(to - accepted) > lever.step + 1e-9", "Math.abs(to - accepted) >= lever.step + 1e-9", EXACT],
  ),
  ...of(
    "tradeRules",
    ["a.mainJet !== undefined && b.mainJet !== undefined", "true", NO_NUMBER],
    [
      "a.mainJet !== undefined && b.mainJet !== undefined",
      "a.mainJet !== undefined || b.mainJet !== undefined",
      NO_NUMBER,
    ],
    ["a.mainJet !== undefined", "true", NO_NUMBER],
    ["b.mainJet !== undefined", "true", NO_NUMBER],
    ["b.headerWeldMm !== undefined", "true", NO_NUMBER],
    ["area * cut > 3.5", "area * cut >= 3.5", EXACT],
    ["target.mainJet.chosen.phiError < -0.03", "target.mainJet.chosen.phiError <= -0.03", EXACT],
  ),
  ...of(
    "targetList",
    ["found[key]?.how", "found[key].how", THERE],
    ["value > from", "value >= from", "the same value was told before"],
  ),
  ...of("targetList", ['"assumed"', '""', "what stands as found was found"]),
  ...of("targetSheet", ["[]", '["Stryker was here"]', THERE, "?.assumptions"]),
  ...of("mainAndNeedle", ['"read"', '""', "any word but assumed counts as known"]),
  ...of("complaints", ["[]", '["Stryker was here"]', "what is no setting decides nothing"]),
  ...of(
    "firstLook",
    ["pressures.length > 1", "true", "one pressure is as high as the highest, and none is less than none"],
    ["pressures.length > 1", "pressures.length >= 1", "one pressure is as high as the highest"],
  ),
  ...of("workedParts", ["[]", '["Stryker was here"]', NO_KIND]),
];
