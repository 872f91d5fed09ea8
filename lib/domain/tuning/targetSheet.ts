import { type Air, relativeAirDensity, STANDARD_BENCH_AIR } from "../air/weather";
import { Refusal, within } from "../refusal";
import { type SolvedCarburettor, solveCarburettor } from "./carburettorTarget";
import type {
  CarburettorTarget,
  FoundCarburettor,
  JetOnHand,
  Ratio,
  TargetInput,
  TargetSheet,
  Warning,
} from "./targetTypes";
import { tradeWarnings } from "./tradeRules";

/**
 * Target settings for a bike of 1 to 4 carburettors: as found settings, the package's changes, the air now against the air
 * they were right for, and the jets that exist. Every value carries its reasons. Carburettors found alike get the same jets,
 * so the drawer must hold enough for all of them; what they take is no longer free for the others. A main or pilot jet more than one step leaner without a measurement is held back: see `refusals`
 * and `insistOnMeasurement`. Throws Refusal for impossible changes, OutOfRange for impossible facts.
 * Source: fuel model relative to the accepted setup; rules of the trade as warnings (common practice).
 */
export function targetSettings(input: TargetInput): TargetSheet {
  within("carburettors", input.carburettors.length, 1, 4);
  const solved = solveAlike(input);
  return {
    carburettors: solved.map((s) => s.target),
    relativeDensity: {
      toBaseline: densityRatio(input.now, input.baseline, "the air the settings were right for"),
      toStandard: densityRatio(input.now, STANDARD_BENCH_AIR, "20 C dry 1013.25 hPa"),
    },
    warnings: once([
      ...solved.flatMap((s) => [...s.warnings, ...tradeWarnings(input, s.target)]),
      ...airWarnings(input),
    ]),
    refusals: solved.flatMap((s) => s.refusals),
    assumptions: solved[0]?.assumptions ?? [],
  };
}

/** Throws a Refusal naming what to measure when a sheet holds a jet back; returns the sheet otherwise. */
export function insistOnMeasurement(sheet: TargetSheet): TargetSheet {
  const [held] = sheet.refusals;
  if (held) throw new Refusal(held.message, held.remedy, { [held.setting]: held.message });
  return sheet;
}

/** Solves each set of carburettors that were found alike once, in order, for as many jets as the set needs. */
function solveAlike(input: TargetInput): readonly SolvedCarburettor[] {
  const alike = (c: FoundCarburettor) => JSON.stringify([c.settings, c.needle, c.parts]);
  const sets = new Map<string, SolvedCarburettor>();
  let jets = input.jets;
  return input.carburettors.map((found) => {
    const key = alike(found);
    let one = sets.get(key);
    if (!one) {
      const needed = input.carburettors.filter((c) => alike(c) === key).length;
      one = solveCarburettor(input, found, jets, needed);
      sets.set(key, one);
      jets = taken(taken(jets, one.target, "mainJet", needed), one.target, "pilotJet", needed);
    }
    return {
      ...one,
      target: { ...one.target, name: found.name },
      refusals: one.refusals.map((r) => ({ ...r, carburettor: found.name })),
    };
  });
}

function taken(
  jets: readonly JetOnHand[],
  target: CarburettorTarget,
  setting: "mainJet" | "pilotJet",
  needed: number,
): readonly JetOnHand[] {
  const choice = target[setting];
  const used = target.settings.find((s) => s.key === setting);
  // The fitted jet stays: nothing is taken.
  if (!choice || used?.value === used?.from) return jets;
  return jets.map((j) =>
    j.setting === setting && j.size === choice.chosen.size && j.convention === choice.convention
      ? { ...j, free: Math.max(0, j.free - needed) }
      : j,
  );
}

function densityRatio(air: Air, to: Air, name: string): Ratio {
  const value = relativeAirDensity(air, to);
  return {
    value,
    because: [
      ...air.because,
      {
        fact: `Against ${name}`,
        from: "CIPM-2007, dry oxygen basis",
        effect: `${(value * 100).toFixed(1)} %`,
      },
    ],
    firmness: air.assumed || to.assumed ? "starting point" : "firm",
  };
}

function airWarnings(input: TargetInput): Warning[] {
  if (!input.now.assumed && !input.baseline.assumed) return [];
  return [
    {
      rule: "assumed air",
      message: "The air was not measured in full: what is missing is typical or standard.",
      remedy: "Enter pressure, temperature and humidity on the day.",
      source: "model",
    },
  ];
}

function once(warnings: readonly Warning[]): readonly Warning[] {
  return [...new Map(warnings.map((w) => [w.rule + w.message, w])).values()];
}
