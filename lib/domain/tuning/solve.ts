import { OutOfRange } from "../refusal";
import { expectedLoss, LEAN_COST_PART, leastLoss } from "./choose";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { logRichness, type Resolved, type Station, stationAt } from "./station";
import type { NeedleShape, SettingValues } from "./targetTypes";

/** Grip openings at which each setting is solved. Source: common practice (main at three quarters and more, clip at half). */
const OPENINGS = {
  mainJet: [0.78, 0.9, 1],
  clipPosition: [0.18, 0.26, 0.36, 0.5, 0.6],
  pilotJet: [0.02, 0.06],
  slideCutawayMm: [0.12, 0.18, 0.25],
} as const;
export type Solved = keyof typeof OPENINGS;

/** Stations per solved setting and vent case: computed once, used by every candidate. */
export type Stations = Readonly<Record<Solved, readonly Station[]>>;

export function stationsFor(r: Resolved): Stations {
  const at = (openings: readonly number[]) => r.vents.flatMap((v) => openings.map((u) => stationAt(r, v, u)));
  return {
    mainJet: at(OPENINGS.mainJet),
    clipPosition: at(OPENINGS.clipPosition),
    pilotJet: at(OPENINGS.pilotJet),
    slideCutawayMm: at(OPENINGS.slideCutawayMm),
  };
}

/** Mean log richness over a setting's openings for what is fitted. */
export function errorOver(
  r: Resolved,
  stations: readonly Station[],
  settings: SettingValues,
  needle: NeedleShape,
  raisedMm = 0,
): number {
  let sum = 0;
  for (const s of stations) sum += logRichness(r, s, { settings, needle, raisedMm });
  return sum / stations.length;
}

/**
 * The unrounded value of a jet or the mixture screw that puts its openings on target, by bisection; richness grows with it.
 * Throws OutOfRange when no value between `low` and `high` does.
 */
export function exactValue(
  key: "mainJet" | "pilotJet" | "mixtureScrewTurns",
  error: (value: number) => number,
  low: number,
  high: number,
): number {
  let a = low;
  let b = high;
  if (error(a) > 0) throw new OutOfRange(`richness with the least ${key} (log)`, error(a), -9, 0);
  if (error(b) < 0) throw new OutOfRange(`richness with the greatest ${key} (log)`, error(b), 0, 9);
  for (let i = 0; i < 30; i++) {
    const middle = (a + b) / 2;
    if (error(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** Widest jet sizes searched: 0.3 to 2 times the reference's area. */
export function jetBounds(r: Resolved, size: number): readonly [number, number] {
  const area = jetAreaMm2(size, r.machine.convention);
  return [jetSizeForArea(0.3 * area, r.machine.convention), jetSizeForArea(2 * area, r.machine.convention)];
}

/**
 * Clip position of least expected loss, added up from an eighth to past half throttle, since a groove that suits half
 * throttle can be far off where the taper begins; a near tie keeps the fitted one, then the richer. A needle without grooves answers clip 0.
 */
export function bestClip(
  r: Resolved,
  stations: Stations,
  settings: SettingValues,
  needle: NeedleShape,
  sigma: number,
): { readonly clip: number; readonly phiError: number; readonly loss: number } {
  const { clipPosition: _, ...unclipped } = settings;
  const grooves = needle.clips === 0 ? [0] : Array.from({ length: needle.clips }, (_, i) => i + 1);
  const options = grooves.map((clipPosition) => {
    const held = clipPosition === 0 ? unclipped : { ...settings, clipPosition };
    const errors = stations.clipPosition.map((x) => logRichness(r, x, { settings: held, needle }));
    const loss = errors.reduce((sum, e) => sum + expectedLoss(e, sigma, LEAN_COST_PART), 0) / errors.length;
    return { clipPosition, phiError: errors.reduce((sum, e) => sum + e, 0) / errors.length, loss };
  });
  const best = options[leastLoss(options)];
  const kept = options.find((o) => o.clipPosition === settings.clipPosition);
  const chosen = kept && best && kept.loss <= best.loss + 0.002 ? kept : best;
  return {
    clip: chosen?.clipPosition ?? needle.clipAt,
    phiError: chosen?.phiError ?? 0,
    loss: chosen?.loss ?? 0,
  };
}
