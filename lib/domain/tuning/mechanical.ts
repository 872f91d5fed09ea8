import { onStep } from "./changes";
import { expectedLoss, LEAN_COST_PART, leastLoss } from "./choose";
import { settingDef } from "./settings";
import { bestClip, errorOver, type Stations } from "./solve";
import type { Resolved } from "./station";
import type { NamedNeedle, NeedleRank, NeedleShape, SettingValues } from "./targetTypes";

/** Sigma of an opening for choosing, as for the clip. Source: judgement. */
const SIGMA = 0.03;

/**
 * Cutaway of a mechanical slide of least expected loss from an eighth to a quarter throttle, on the steps that slides are made
 * in; at most one step from the fitted one unless that was measured. Null on a constant-vacuum slide or where it is not known.
 * Source: cutaway.ts (judgement); step common practice.
 */
export function bestCutaway(
  r: Resolved,
  stations: Stations,
  values: SettingValues,
  needle: NeedleShape,
): number | null {
  const fitted = values.slideCutawayMm;
  if (r.machine.type === "cv" || fitted === undefined) return null;
  const step = settingDef("slideCutawayMm")?.step ?? 0.5;
  const reach = r.error.straight.measured ? 4 : 1;
  const options = Array.from({ length: 2 * reach + 1 }, (_, i) => {
    const cut = onStep("slideCutawayMm", fitted + (i - reach) * step);
    const phiError = errorOver(r, stations.slideCutawayMm, { ...values, slideCutawayMm: cut }, needle);
    return { cut, phiError, loss: expectedLoss(phiError, SIGMA, LEAN_COST_PART) };
  });
  return options[leastLoss(options)]?.cut ?? fitted;
}

/** Needles by how near their best groove leaves an eighth to past half throttle to the target, best first. Source: solve.ts. */
export function rankNeedles(
  r: Resolved,
  stations: Stations,
  values: SettingValues,
  needles: readonly NamedNeedle[],
): readonly NeedleRank[] {
  if (needles.length === 0) return [];
  const { clipPosition: _, ...rest } = values;
  return [{ name: "as fitted", shape: r.now.needle }, ...needles]
    .map((one) => ({ ...one, ...bestClip(r, stations, rest, one.shape, SIGMA) }))
    .sort((a, b) => a.loss - b.loss);
}
