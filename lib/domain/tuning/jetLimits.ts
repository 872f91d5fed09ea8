import { Refusal } from "../refusal";
import { densityJet } from "./densityJet";
import type { JetTask } from "./jetQuestion";
import { settingDef } from "./settings";
import { errorOver, exactValue, jetBounds } from "./solve";
import { correctionAt } from "./station";
import type { DensityJet } from "./targetTypes";

/** Sizes that may be recommended, in the fitted numbering, and what they follow from. */
export interface JetLimits {
  readonly low: number;
  readonly high: number;
  readonly density: DensityJet;
  /** What the model asks for the air and the changes on the sheet, without what was learned from other rides. */
  readonly described: number;
}

/**
 * How far a jet may go from the fitted one. Leaner: one step, or what air density alone asks for, which is firm. Richer: one
 * step, or that; a main jet also one step beyond what the model asks for the changes on the sheet, since holding it back from
 * a freer engine's need would run it lean. Measured on this bike: any size. Source: judgement.
 */
export function jetLimits(t: JetTask, fitted: number): JetLimits {
  const density = densityJet(fitted, t.r.machine.convention, t.r.now.air, t.r.reference.air, {
    now: t.r.now.fuel,
    reference: t.r.reference.fuel,
  });
  const described = describedSize(t);
  if (t.r.error[t.key === "mainJet" ? "main" : "pilot"].measured)
    return { low: 0, high: Number.POSITIVE_INFINITY, density, described };
  return { ...bounds([density], [described], fitted, t.key), density, described };
}

/** The same for one main jet over several airs: leaner only as far as density allows in each of them, richer as far as any of them asks. */
export function mainLimitsOver(each: readonly JetLimits[], fitted: number): Omit<JetLimits, "described"> {
  const densities = each.map((l) => l.density);
  const [first] = densities;
  if (!first) throw new Refusal("No air is given.", "Say for which altitude and weather.");
  const density = densities.reduce((a, b) => (b.exact > a.exact ? b : a), first);
  if (each.every((l) => l.high === Number.POSITIVE_INFINITY))
    return { low: 0, high: Number.POSITIVE_INFINITY, density };
  return {
    ...bounds(
      densities,
      each.map((l) => l.described),
      fitted,
      "mainJet",
    ),
    density,
  };
}

function bounds(
  densities: readonly DensityJet[],
  described: readonly number[],
  fitted: number,
  key: JetTask["key"],
): { readonly low: number; readonly high: number } {
  const step = settingDef(key)?.step ?? 2.5;
  const up = (size: number) => Math.ceil(size / step - 1e-6) * step;
  const asked = key === "mainJet" ? described.map((d) => up(d) + step) : [];
  return {
    low: Math.min(fitted - step, Math.max(...densities.map((d) => d.exact))) - 1e-9,
    high: Math.max(fitted + step, ...densities.map((d) => d.size), ...asked) + 1e-9,
  };
}

function describedSize(t: JetTask): number {
  const here = t.stations[t.key];
  const learned = here.reduce((sum, s) => sum + correctionAt(t.r, s.weights), 0) / here.length;
  const error = (size: number) => errorOver(t.r, here, { ...t.values, [t.key]: size }, t.needle) - learned;
  const [low, high] = jetBounds(t.r, t.r.machine[t.key]);
  if (error(low) > 0) return low;
  return error(high) < 0 ? high : exactValue(t.key, error, low, high);
}
