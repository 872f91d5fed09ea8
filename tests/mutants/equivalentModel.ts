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
  ...of("lambdaLog", [
    "found[Math.min(bins - 1, Math.floor(u * bins))]?.push",
    "found[Math.min(bins - 1, Math.floor(u * bins))].push",
    THERE,
  ]),
  ...of(
    "logObservations",
    ["Math.abs(off) < Math.max(GOOD, 2 * sigma)", "Math.abs(off) <= Math.max(GOOD, 2 * sigma)", EXACT],
    ["off > 0", "off >= 0", "what lies on target is good, and off by 0.0 % either way"],
    [
      "Math.log(targetLambda(bin.throttle) / bin.lambda) > GOOD",
      "Math.log(targetLambda(bin.throttle) / bin.lambda) >= GOOD",
      EXACT,
    ],
  ),
  ...of("steadyReading", [
    "held.rpm !== null",
    "true",
    "no engine speed compares as none, which is below every limit",
  ]),
  ...of(
    "symptoms",
    ["score > 0.02", "score >= 0.02", EXACT],
    ["net > 0", "net >= 0", "a score of nothing is left out"],
    ["sense > 0", "sense >= 0", "a sense is up or down"],
    ["settingDef(lever.key)?.name", "settingDef(lever.key).name", THERE],
  ),
  ...of(
    "solve",
    ["chosen?.clipPosition", "chosen.clipPosition", THERE],
    ["chosen?.phiError", "chosen.phiError", THERE],
    ["chosen?.loss", "chosen.loss", THERE],
    ["kept.loss <= best.loss + 0.002", "kept.loss < best.loss + 0.002", EXACT],
    ["i < 30", "i <= 30", "one more halving of a millionth of a size"],
    ["error(middle) < 0", "error(middle) <= 0", "halving ends at the same size, to a millionth"],
  ),
  ...of(
    "jetChoice",
    ["Math.abs(c.phiError) <= ON_TARGET", "Math.abs(c.phiError) < ON_TARGET", EXACT],
    ["ready.loss <= best.loss + DRAWER_ALLOWANCE", "ready.loss < best.loss + DRAWER_ALLOWANCE", EXACT],
    ["convention === q.convention", "false", "through its area a size comes back as itself", "size :"],
  ),
  ...of(
    "jetQuestion",
    ["at(high) < 0", "at(high) <= 0", EXACT],
    ["at(low) > 0", "at(low) >= 0", EXACT],
    ["Math.abs(needed) < 0.0005", "Math.abs(needed) <= 0.0005", EXACT],
    ["needed < 0", "needed <= 0", "a jet that is right was told before"],
  ),
  ...of(
    "mechanical",
    [
      'settingDef("slideCutawayMm")?.step ?? 0.5',
      'settingDef("slideCutawayMm")?.step && 0.5',
      "0.5 is the step",
    ],
    ['settingDef("slideCutawayMm")?.step', 'settingDef("slideCutawayMm").step', THERE],
    ['"slideCutawayMm"', '""', "0.5 stands in for the step, and is it", "?.step"],
    ["fitted + (i - reach) * step", "fitted - (i - reach) * step", "the same options from the other end"],
    ["options[leastLoss(options)]?.cut", "options[leastLoss(options)].cut", THERE],
  ),
  ...of("targetGaps", ["settingDef(key)?.name", "settingDef(key).name", THERE]),
  ...of(
    "targetSheet",
    ["solved[0]?.assumptions", "solved[0].assumptions", THERE],
    ["used?.value", "used.value", THERE],
    ["used?.from", "used.from", THERE],
  ),
  ...of(
    "carburettorTarget",
    ["given !== undefined", "true", "a jet that is asked for and not computed stands as found, or as set"],
    ["[]", '["Stryker was here"]', "a word is no shim that is free", "input.shims"],
  ),
  ...of(
    "jetLimits",
    ["error(low) > 0", "error(low) >= 0", EXACT],
    ["error(high) < 0", "error(high) <= 0", EXACT],
  ),
  ...of(
    "correctionStep",
    ["2 * sense", "2 / sense", "a sense is up or down"],
    ["sense > 0", "sense >= 0", "a sense is up or down"],
  ),
  ...of(
    "wear",
    ["low !== undefined", "true", "no number is less than a limit that is none"],
    ["high !== undefined", "true", "no number is more than a limit that is none"],
  ),
  ...of("mainAndNeedle", [
    "values.mainJet === undefined",
    "false",
    "a jet that is undefined is the machine's, as one that is missing",
  ]),
  ...of(
    "sameThread",
    ["/\\s+/g", "/\\s/g", "signs taken off one by one are off as well"],
    ["off(jet) <= FURTHEST", "off(jet) < FURTHEST", EXACT],
  ),
];
