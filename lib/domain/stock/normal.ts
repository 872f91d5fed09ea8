import { within } from "../refusal";

const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/**
 * Probability that a standard normal value is at most z: 1/2 + density(z) (z + z^3/3 + z^5/(3 5) + ...).
 * Source: G. Marsaglia, Evaluating the Normal Distribution, Journal of Statistical Software 11(4), 2004. For |z| up to 8.
 */
export function normalProbability(z: number): number {
  within("z", z, -8, 8);
  let sum = z;
  let term = z;
  for (let n = 3; sum + term !== sum && n < 600; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return 0.5 + density(z) * sum;
}

/**
 * The z that a standard normal value stays below with the given probability (0.000 001 to 0.999 999): Halley's method on
 * `normalProbability`, whose second derivative is -z times the density.
 */
export function normalQuantile(probability: number): number {
  within("probability", probability, 1e-6, 1 - 1e-6);
  let z = 0;
  for (let round = 0; round < 60; round++) {
    const step = (normalProbability(z) - probability) / density(z);
    const next = Math.max(-6, Math.min(6, z - step / (1 + (z * step) / 2)));
    if (Math.abs(next - z) < 1e-13) return next;
    z = next;
  }
  return z;
}
