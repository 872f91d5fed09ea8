import { Refusal, within } from "../refusal";
import { ownNoise, sessionSigma } from "./heard";
import { type Build, byInstrument, type CalibrationPoint, type Lesson } from "./lesson";
import { type Posterior, posterior } from "./posterior";
import { REGIONS } from "./regions";
import { BIKE_SPREAD, SENSOR_BIAS } from "./spreads";
import type { RegionCorrection } from "./targetTypes";

/** Residuals beyond this many sigma count less, Huber's usual 1.345. */
const HUBER = 1.345;
const ROUNDS = 8;
const SETTLED = 1e-6;
/** A region counts as sampled by a reading from this weight on. Source: judgement. */
const SAMPLED = 0.3;

/**
 * Region corrections of one bike from all lessons of its model. The covariance is that of the lessons' design alone, so that
 * no further lesson can widen it; Huber weights act on the values only, against outliers; "felt" evidence acts while the
 * values deny it and narrows nothing. Without lessons: the accepted reference, 0 with its sigma.
 * Throws OutOfRange for a sigma that is not positive or a number that is none. Sources: posterior.ts; Huber 1964.
 */
export function calibrate(
  lessons: readonly Lesson[],
  build: Build = "delivered",
): readonly RegionCorrection[] {
  for (const lesson of lessons) for (const p of lesson.points) checked(p);
  const heard = lessons.filter((l) => l.points.some((p) => p.steady));
  const design = posterior(heard, build, (p) => (oneSided(p) ? 0 : 1));
  let fit = design;
  for (let round = 0; round < ROUNDS; round++) {
    const last = fit;
    fit = posterior(heard, build, weightBy(last));
    if (fit.mean.every((m, i) => Math.abs(m - (last.mean[i] ?? 0)) < SETTLED)) break;
  }
  const points = heard.flatMap((l) => l.points.filter((p) => p.steady && byInstrument(p)));
  return REGIONS.map((region, i) => ({
    region,
    value: fit.mean[i] ?? 0,
    sigma: Math.sqrt(design.covariance[i]?.[i] ?? 0),
    covariance: design.covariance[i],
    samples: points.filter((p) => p.weights[region] >= SAMPLED).length,
  }));
}

const oneSided = (p: CalibrationPoint) => p.kind === "felt lean" || p.kind === "felt rich";

/** Huber weight of a point against a fit, its whole sigma counted: that of a bike other than the one that asks includes what bikes differ by. */
function weightBy(fit: Posterior) {
  return (p: CalibrationPoint, lesson: Lesson): number => {
    const residual = p.error - REGIONS.reduce((sum, r, i) => sum + p.weights[r] * (fit.mean[i] ?? 0), 0);
    if (p.kind === "felt lean" && residual > 0) return 0;
    if (p.kind === "felt rich" && residual < 0) return 0;
    const shared = byInstrument(p) ? SENSOR_BIAS.sigma : 0;
    const bikes = lesson.bike === 0 ? 0 : Math.SQRT2 * BIKE_SPREAD.sigma;
    const size = Math.abs(residual) / Math.hypot(ownNoise(p), sessionSigma(lesson), shared, bikes);
    return size <= HUBER ? 1 : HUBER / size;
  };
}

function checked(p: CalibrationPoint): void {
  within("sigma of a reading", p.sigma, 0.001, 1);
  within("log richness of a reading", p.error, -3, 3);
  for (const region of REGIONS) within(`weight of the ${region} region`, p.weights[region], 0, 1);
  if (p.steady && REGIONS.every((r) => p.weights[r] === 0))
    throw new Refusal("A reading speaks of no region.", "Leave it out.");
}
