import { BIKE_SPREAD, FEEL_BIAS, MODEL_SPREAD, REFERENCE_NOISE } from "./spreads";
import type { Region } from "./targetTypes";

export const REGIONS: readonly Region[] = ["pilot", "straight", "taper", "main"];

/** Share of the mixture each region decides, over slide lift as a share of full lift. Source: judgement. */
const WEIGHTS: readonly (readonly [
  lift: number,
  pilot: number,
  straight: number,
  taper: number,
  main: number,
])[] = [
  [0, 0.95, 0.05, 0, 0],
  [0.06, 0.7, 0.3, 0, 0],
  [0.15, 0.35, 0.55, 0.1, 0],
  [0.3, 0.15, 0.35, 0.45, 0.05],
  [0.5, 0.07, 0.13, 0.6, 0.2],
  [0.7, 0.04, 0.05, 0.45, 0.46],
  [0.85, 0.03, 0.02, 0.2, 0.75],
  [1, 0.02, 0, 0.08, 0.9],
];

/** Lambda aimed at over grip opening: idle 0.95, cruise near 1, full load 0.88. Source: common practice, from memory. */
const TARGETS: readonly (readonly [throttle: number, lambda: number])[] = [
  [0, 0.95],
  [0.1, 0.97],
  [0.25, 0.99],
  [0.45, 0.97],
  [0.65, 0.93],
  [0.8, 0.89],
  [1, 0.88],
];

const prior = (region: Region) => Math.hypot(MODEL_SPREAD[region].sigma, BIKE_SPREAD.sigma);
/** Prior one-sigma of each region's error on one bike, natural-log units: model and bike. Source: spreads.ts. */
export const PRIOR_SIGMA: Readonly<Record<Region, number>> = {
  pilot: prior("pilot"),
  straight: prior("straight"),
  taper: prior("taper"),
  main: prior("main"),
};
/** One-sigma of "these settings were accepted as right". Source: spreads.ts. */
export const ACCEPTED_SIGMA = Math.hypot(FEEL_BIAS.sigma, REFERENCE_NOISE.sigma);

export type Weights = Readonly<Record<Region, number>>;

/** Region weights at a lift share, 0 to 1 (clamped); they add up to 1. */
export function regionWeights(liftShare: number): Weights {
  const [, pilot = 0, straight = 0, taper = 0, main = 0] = between(WEIGHTS, liftShare);
  return { pilot, straight, taper, main };
}

/** Target lambda at a grip opening, 0 to 1 (clamped). */
export function targetLambda(throttle: number): number {
  return between(TARGETS, throttle)[1] ?? 0.88;
}

/** The region with the greatest weight. */
export function leadingRegion(weights: Weights): Region {
  return REGIONS.reduce((best, r) => (weights[r] > weights[best] ? r : best), "pilot" as Region);
}

function between(rows: readonly (readonly number[])[], at: number): readonly number[] {
  let low = rows[0] ?? [];
  for (const row of rows) {
    const x1 = row[0] ?? 0;
    if (x1 >= at) {
      const x0 = low[0] ?? 0;
      if (x1 === x0) return row;
      const share = Math.max(0, (at - x0) / (x1 - x0));
      return row.map((v, i) => (low[i] ?? v) + share * (v - (low[i] ?? v)));
    }
    low = row;
  }
  return low;
}
