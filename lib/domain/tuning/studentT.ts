import { within } from "../refusal";

/** Lanczos's coefficients, g = 7, n = 9. Source: Lanczos 1964, the widely published set. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural log of the gamma function for x of at least 0.5. Source: Lanczos 1964. */
function logGamma(x: number): number {
  const z = x - 1;
  const t = z + 7.5;
  const sum = LANCZOS.reduce((s, c, i) => (i === 0 ? c : s + c / (z + i)), 0);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Regularised incomplete beta function. Source: DLMF 8.17.22, continued fraction by Lentz's method as modified by Thompson and Barnett 1986. */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
  // With x so small neither denominator comes near 0, and nothing has to stand in for it.
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let f = d;
  for (let m = 1; m <= 300; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    for (const term of [even, odd]) {
      d = 1 / (1 + term * d);
      c = 1 + term / c;
      f *= c * d;
    }
    if (Math.abs(c * d - 1) < 1e-14) break;
  }
  return (front * f) / a;
}

/**
 * Probability that Student's t with these degrees of freedom lies further from 0 than `t`, either way.
 * Source: identity I_x(df/2, 1/2) at x = df / (df + t^2). Throws OutOfRange.
 */
export function tFurther(t: number, freedom: number): number {
  const df = within("degrees of freedom", freedom, 0.5, 1e6);
  return incompleteBeta(df / (df + t * t), df / 2, 0.5);
}

/** The t that lies further from 0 with this probability, either way (0.05: the two-sided 95 % value). Bisection. Throws OutOfRange. */
export function tFor(probability: number, freedom: number): number {
  within("probability", probability, 1e-6, 1 - 1e-9);
  let low = 0;
  let high = 1;
  while (tFurther(high, freedom) > probability) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (tFurther(middle, freedom) > probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
