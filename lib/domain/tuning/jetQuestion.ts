import type { Reason } from "../reason";
import { fuelNamed } from "./fuels";
import type { JetQuestion } from "./jetChoice";
import { errorOver, exactValue, jetBounds, type Stations } from "./solve";
import { correctionAt, logSigma, type Resolved } from "./station";
import type { JetOnHand, NeedleShape, SettingValues } from "./targetTypes";

export interface JetTask {
  readonly r: Resolved;
  readonly stations: Stations;
  readonly key: "mainJet" | "pilotJet";
  /** Everything fitted but this jet. */
  readonly values: SettingValues;
  readonly needle: NeedleShape;
  /** The needle raised by this where only the difference is known, mm. */
  readonly raisedMm?: number;
  readonly fitted: number | null;
  readonly jets: readonly JetOnHand[];
  /** Carburettors that get the same jet. */
  readonly needed: number;
}

/** "" when some jet from 0.3 to 2 times the reference's area meets the target; else why none does. */
export function jetReach(t: JetTask): string {
  const [low, high] = jetBounds(t.r, t.r.machine[t.key]);
  const at = (size: number) =>
    errorOver(t.r, t.stations[t.key], { ...t.values, [t.key]: size }, t.needle, t.raisedMm);
  if (at(high) < 0) return `even ${Math.round(high)} is lean, the rest of its circuit holds the fuel back`;
  return at(low) > 0 ? `even ${Math.round(low)} is rich` : "";
}

/** Asks for a jet: exact size, sigma of the change, reasons. Throws OutOfRange when no size reaches the target. */
export function jetQuestion(t: JetTask): JetQuestion {
  const { r, key } = t;
  const here = t.stations[key];
  const error = (size: number) => errorOver(r, here, { ...t.values, [key]: size }, t.needle, t.raisedMm);
  const unchanged = r.machine[key];
  const needed = error(unchanged);
  const [low, high] = jetBounds(r, unchanged);
  const [station] = here;
  const changed = needed - here.reduce((sum, s) => sum + correctionAt(r, s.weights), 0) / here.length;
  return {
    setting: key,
    convention: r.machine.convention,
    exact: exactValue(key, error, low, high),
    fitted: t.fitted,
    jets: t.jets,
    needed: t.needed,
    error,
    sigma: changeSigma(t, changed),
    lambdaSigma: station ? logSigma(r, station, changed) : 0,
    because: reasons(needed, r, key),
  };
}

/**
 * Sigma of what the change needs. The fitted jet was accepted, so what is uncertain is 30 % of what the model says has changed
 * (judgement), the assumptions' share of it, the vent cases' difference and the air. What was measured is no part of it: a
 * reading must not make the choice less sure than it was without one.
 */
function changeSigma(t: JetTask, changed: number): number {
  const { r, key } = t;
  const each = t.stations[key].length / r.vents.length;
  const cases = r.vents.map((_, i) =>
    errorOver(r, t.stations[key].slice(i * each, (i + 1) * each), t.values, t.needle, t.raisedMm),
  );
  const spread = (Math.max(...cases) - Math.min(...cases)) / 2;
  const air = 0.5 * Math.hypot(r.now.air.sigma, r.reference.air.sigma);
  return Math.hypot(0.012, changed * 0.3, changed * r.machine.widen, spread, air);
}

function reasons(needed: number, r: Resolved, key: "mainJet" | "pilotJet"): readonly Reason[] {
  const percent = Math.abs(Math.expm1(needed) * 100).toFixed(1);
  const where = key === "mainJet" ? "three quarters of throttle and more" : "closed throttle";
  const right = Math.abs(needed) < 0.0005;
  return [
    {
      fact: right
        ? `The fitted jet stays on target at ${where}`
        : `The fitted jet would run ${percent} % ${needed < 0 ? "lean" : "rich"} at ${where}`,
      from: "fuel model: air, breathing, slide and needle against the accepted setup",
      effect: right ? "the same jet" : needed < 0 ? "larger jet" : "smaller jet",
      firmness: "starting point" as const,
    },
    ...fuelReasons(r),
    ...(r.vents.length > 1
      ? [{ fact: "Where the bowl is vented is not known", from: "model card", effect: "mean of both cases" }]
      : []),
  ];
}

/** What was said or assumed of the fuel, where it makes a difference. */
function fuelReasons(r: Resolved): readonly Reason[] {
  const { now, reference } = r;
  const warm = (k: number) => `${(k - 273.15).toFixed(0)} C`;
  const said: Reason[] = [];
  if (now.fuel !== reference.fuel)
    said.push({
      fact: `${reference.fuel} before, ${now.fuel} now`,
      from: "stoichiometric ratio and density of the fuels",
      effect: `air/fuel ${fuelNamed(reference.fuel).stoichiometric} to ${fuelNamed(now.fuel).stoichiometric}`,
      firmness: "firm",
    });
  if (Math.abs(now.fuelTemperatureK - reference.fuelTemperatureK) > 1)
    said.push({
      fact: `Fuel at ${warm(now.fuelTemperatureK)}, before at ${warm(reference.fuelTemperatureK)}`,
      from: now.fuelTemperatureK === now.air.temperatureK ? "assumed as warm as the air" : "entered",
      effect: "density of the fuel",
      firmness: "starting point",
    });
  return said;
}
