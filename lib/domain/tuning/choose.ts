import { within } from "../refusal";

/** Standard normal distribution function. Source: Abramowitz and Stegun 7.1.26, absolute error below 1.5e-7. */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = 0.5 * poly * Math.exp(-x * x);
  return z > 0 ? 1 - tail : tail;
}

/**
 * Expected loss of an error e ~ N(mean, sigma), where being lean (e < 0) costs `leanCost` times as much as being rich:
 * E[max(e, 0)] + leanCost E[max(-e, 0)]. Source: identity of the normal distribution.
 */
export function expectedLoss(mean: number, sigma: number, leanCost: number): number {
  within("error", mean, -10, 10);
  if (sigma < 1e-9) return mean >= 0 ? mean : -leanCost * mean;
  const z = mean / sigma;
  const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  const rich = mean * normalBelow(z) + sigma * density;
  return rich + leanCost * (rich - mean);
}

/** Lean costs this many times rich at full load, and below it. Source: judgement (lean at full load destroys engines). */
export const LEAN_COST_FULL = 3;
export const LEAN_COST_PART = 1.5;

/** Probability that lambda is above a limit, for log-normal lambda with median `lambda` and log sigma. */
export function probabilityLeaner(lambda: number, sigma: number, limit: number): number {
  if (sigma < 1e-9) return lambda > limit ? 1 : 0;
  return normalBelow(Math.log(lambda / limit) / sigma);
}

/** Index of the least loss; ties (within 1e-6) go to the richer candidate; -1 for an empty list. */
export function leastLoss(
  candidates: readonly { readonly loss: number; readonly phiError: number }[],
): number {
  let best = -1;
  candidates.forEach((c, i) => {
    const b = candidates[best];
    const better = !b || c.loss < b.loss - 1e-6;
    const tied = b && Math.abs(c.loss - b.loss) <= 1e-6 && c.phiError > b.phiError;
    if (better || tied) best = i;
  });
  return best;
}
