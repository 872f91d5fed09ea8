import type { Air } from "../air/weather";
import { Refusal, within } from "../refusal";
import type { LambdaReading } from "./lambdaLog";
import { ACCEPTED_SIGMA, PRIOR_SIGMA, REGIONS, targetLambda, type Weights } from "./regions";
import { inverse } from "./smallMatrix";
import { logRichness, resolve, stationAt } from "./station";
import type { FuelState, RegionCorrection } from "./targetTypes";

export type Evidence = "wideband" | "accepted" | "felt lean" | "felt rich";

/** One piece of evidence: how much richer (log) than the model it says the bike is, and which regions it speaks of. */
export interface CalibrationPoint {
  readonly kind: Evidence;
  readonly weights: Weights;
  /** Log richness beyond the uncalibrated model; for "felt" the bound (it was at least that lean or rich). */
  readonly error: number;
  readonly sigma: number;
  /** False for a transient: not fitted. */
  readonly steady: boolean;
}

/** How far off target it must be to be felt (log), and how sure that is. Source: judgement. */
const FELT = 0.04;
const FELT_SIGMA = 0.04;
/** Residuals beyond this many sigma count less, Huber's usual 1.345. */
const HUBER = 1.345;

/** Evidence from one opening; with vents unknown, against the atmosphere case: `lambda` for "wideband" (sigma 0.015 to 0.03), nothing else for the other kinds. */
export function calibrationPoint(
  state: FuelState,
  air: Air,
  throttle: number,
  seen: {
    readonly kind: Evidence;
    readonly lambda?: number;
    readonly sigma?: number;
    readonly steady?: boolean;
  },
): CalibrationPoint {
  const r = resolve({ ...state, calibration: undefined }, air);
  const vent = r.vents[0] ?? "atmosphere";
  const station = stationAt(r, vent, within("throttle", throttle, 0, 1));
  const model = logRichness(r, station, r.now);
  const steady = seen.steady ?? true;
  const say = (target: number, sigma: number) => ({
    kind: seen.kind,
    weights: station.weights,
    error: target - model,
    sigma,
    steady,
  });
  if (seen.kind === "accepted") return say(0, ACCEPTED_SIGMA);
  if (seen.kind === "felt lean") return say(-FELT, FELT_SIGMA);
  if (seen.kind === "felt rich") return say(FELT, FELT_SIGMA);
  if (seen.lambda === undefined)
    throw new Refusal("A wideband reading has no lambda.", "Enter the lambda that was read.");
  const lambda = within("lambda", seen.lambda, 0.5, 2);
  return say(
    Math.log(targetLambda(throttle) / lambda),
    within("lambda sigma", seen.sigma ?? 0.02, 0.005, 0.2),
  );
}

/**
 * Region corrections b = (X'WX + Lambda)^-1 X'Wy with the region priors as Lambda and its inverse as covariance; Huber
 * weights against outliers; "felt" evidence acts only while the fit denies it. A region that nothing sampled keeps its prior
 * (value 0, prior sigma, 0 samples). Source: ridge regression with Gaussian priors (judgement), Huber 1964.
 */
export function calibrate(points: readonly CalibrationPoint[]): readonly RegionCorrection[] {
  const used = points.filter((p) => p.steady);
  let b = REGIONS.map(() => 0);
  let covariance = REGIONS.map((r, i) => REGIONS.map((_, j) => (i === j ? PRIOR_SIGMA[r] ** 2 : 0)));
  for (let round = 0; round < 12; round++) {
    const normal = REGIONS.map((r, i) => REGIONS.map((_, j) => (i === j ? PRIOR_SIGMA[r] ** -2 : 0)));
    const right = REGIONS.map(() => 0);
    for (const p of used) {
      const x = REGIONS.map((r) => p.weights[r]);
      const residual = p.error - x.reduce((sum, v, i) => sum + v * (b[i] ?? 0), 0);
      const weight = weightOf(p, residual) / p.sigma ** 2;
      x.forEach((xi, i) => {
        right[i] = (right[i] ?? 0) + weight * xi * p.error;
        const row = normal[i];
        if (row)
          x.forEach((xj, j) => {
            row[j] = (row[j] ?? 0) + weight * xi * xj;
          });
      });
    }
    covariance = inverse(normal);
    b = covariance.map((row) => row.reduce((sum, v, j) => sum + v * (right[j] ?? 0), 0));
  }
  return REGIONS.map((region, i) => ({
    region,
    value: b[i] ?? 0,
    sigma: Math.sqrt(covariance[i]?.[i] ?? PRIOR_SIGMA[region] ** 2),
    samples: used.filter((p) => p.kind === "wideband" && p.weights[region] >= 0.3).length,
  }));
}

function weightOf(p: CalibrationPoint, residual: number): number {
  if (p.kind === "felt lean" && residual > 0) return 0;
  if (p.kind === "felt rich" && residual < 0) return 0;
  const size = Math.abs(residual) / p.sigma;
  return size <= HUBER ? 1 : HUBER / size;
}

/** Region corrections from a lambda log that was ridden with this state in this air: one observation per steady bin. */
export function calibrateFromLog(
  state: FuelState,
  air: Air,
  reading: LambdaReading,
): readonly RegionCorrection[] {
  return calibrate(
    reading.bins.map(({ throttle, lambda, sigma }) =>
      calibrationPoint(state, air, throttle, { kind: "wideband", lambda, sigma }),
    ),
  );
}
