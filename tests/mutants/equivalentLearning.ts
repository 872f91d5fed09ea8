import type { Equivalent } from "./equivalent.ts";

const THERE = "always there; only the type checker cannot know";
const ZERO = "what is nothing adds nothing";
const BEYOND = "a place beyond the end holds nothing, and adds nothing";
const SOONER = "a settled fit only ends sooner: another round changes it by less than a millionth";
const LEFT_OUT = "what is known already narrows nothing, and what narrows nothing is left out below";
const NO_PLACE = "a word is no place in a list of numbers";
const EXACT = "a residual of exactly nothing pulls nowhere, whatever it counts";

type Row = readonly [from: string, to: string, why: string, near?: string];
const of = (file: string, ...rows: readonly Row[]): readonly Equivalent[] =>
  rows.map(([from, to, why, near]) => ({
    file: `tuning/${file}.ts`,
    from,
    to,
    why,
    ...(near === undefined ? {} : { near }),
  }));
const chained = (file: string): Equivalent => ({
  file: `tuning/${file}.ts`,
  from: "…",
  to: "…",
  mutator: "OptionalChaining",
  why: THERE,
});

/** What no test can kill of calibration: see equivalent.ts. */
export const LEARNING: readonly Equivalent[] = [
  ...of(
    "calibrate",
    ["fit.mean.every((m, i) => Math.abs(m - (last.mean[i] ?? 0)) < SETTLED)", "false", SOONER],
    ["(m, i) => Math.abs(m - (last.mean[i] ?? 0)) < SETTLED", "() => undefined", SOONER],
    ["Math.abs(m - (last.mean[i] ?? 0)) < SETTLED", "Math.abs(m - (last.mean[i] ?? 0)) <= SETTLED", SOONER],
    ["Math.abs(m - (last.mean[i] ?? 0)) < SETTLED", "false", SOONER],
    ["m - (last.mean[i] ?? 0)", "m + (last.mean[i] ?? 0)", SOONER],
    ["last.mean[i] ?? 0", "last.mean[i] && 0", SOONER],
    [
      "lessons.filter((l) => l.points.some((p) => p.steady))",
      "lessons",
      "a lesson without a steady point is heard as nothing",
    ],
    ["residual > 0", "residual >= 0", EXACT],
    ["residual < 0", "residual <= 0", EXACT],
    ["size <= HUBER", "size < HUBER", "both count 1 where they meet"],
  ),
  chained("calibrate"),
  ...of("calibrationPoint", ['"atmosphere"', '""', THERE]),
  ...of(
    "heard",
    ["() => 0", "() => undefined", ZERO],
    ["weight > 0", "true", ZERO],
    ["weight > 0", "weight >= 0", ZERO],
    ["sum + Math.abs(p.changed)", "sum - Math.abs(p.changed)", "its square is taken"],
  ),
  ...of(
    "information",
    ["list", "true", THERE, "if (list)"],
    ["i < row.length", "i <= row.length", BEYOND],
    ["a === 0", "false", ZERO],
    ["value !== 0", "true", ZERO],
    ["all.precision.slice(keep)", "all.precision", "the rows before are solved along with them and not read"],
    ["[]", '["Stryker was here"]', THERE],
    ["k < size", "k <= size", BEYOND],
    ["l < size", "l <= size", BEYOND],
    ["gain === 0", "false", ZERO],
  ),
  chained("information"),
  chained("expectedLog"),
  ...of(
    "narrowing",
    ['"measured"', '""', "any word but assumed counts as known"],
    ["!isAssumed(state.card, fact)", "false", LEFT_OUT],
    ["[]", '["Stryker was here"]', "what promises nothing is left out below", "!isAssumed"],
    ["[]", '["Stryker was here"]', "what promises nothing is left out below", "!log"],
    ["true", "false", "how sure it is does not ask whether it counts as measured", "current"],
    ["n.then < now - 1e-5", "n.then <= now - 1e-5", "no promise is off by exactly this double"],
    [
      'known === undefined || known.how === "assumed" || (fact === "ventedTo" && known.value === "unknown")',
      "true",
      LEFT_OUT,
    ],
    [
      'fact === "ventedTo" && known.value === "unknown"',
      'fact === "ventedTo" || known.value === "unknown"',
      LEFT_OUT,
    ],
    ['fact === "ventedTo" && known.value === "unknown"', "true", LEFT_OUT],
    ['fact === "ventedTo"', "true", "no other fact has the value unknown"],
    ['known.value === "unknown"', "true", LEFT_OUT],
  ),
  ...of(
    "posterior",
    [
      "lessons.filter((l) => l.points.some(byInstrument))",
      "lessons",
      "a sensor that read nothing stays as it was thought to be, and acts on nothing",
    ],
    ["!own", "true", "the places of another bike are not in this one's state", "for (let i"],
    ["i < N", "i <= N", "the state has no such place"],
    ["[]", '["Stryker was here"]', NO_PLACE],
  ),
  chained("posterior"),
  ...of(
    "ridden",
    [
      "Math.abs(a / b - 1) <= SAME_SPRING",
      "Math.abs(a / b - 1) < SAME_SPRING",
      "no quotient is off by exactly this double",
    ],
    [
      "ride.spring || !bike.reference.spring",
      "false",
      "the same spring comes back: as described, or as its sheet cuts it",
    ],
    [
      "ride.spring || !bike.reference.spring",
      "ride.spring && !bike.reference.spring",
      "the same spring comes back: as described, or as its sheet cuts it",
    ],
    [
      "coils ?? null",
      "coils && null",
      "nothing cuts this spring further, so that its coils are not asked for",
    ],
    ["false", "true", "a spring whose rate is known is no guess", "exchanged: false"],
    ["false", "true", "a point does not ask how its air was known", "buildAir"],
    ["[]", '["Stryker was here"]', "a point does not ask how its air was known", "buildAir"],
    ['""', '"Stryker was here!"', "any one name stands for the unnamed"],
    ["lambda === undefined", "false", "a lambda that is undefined is none"],
    ["sigma === undefined", "false", "a sigma that is undefined is none"],
  ),
  ...of(
    "smallMatrix",
    ["[]", '["Stryker was here"]', THERE],
    ["i < n", "i <= n", BEYOND],
    [
      "Math.abs(rows[i]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)",
      "Math.abs(rows[i]?.[c] ?? 0) >= Math.abs(rows[pivot]?.[c] ?? 0)",
      "of two as large either will do",
    ],
    ["factor !== 0", "true", ZERO],
  ),
  chained("smallMatrix"),
];
