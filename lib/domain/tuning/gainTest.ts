import { within } from "../refusal";
import { tFor, tFurther } from "./studentT";

export interface GainTest {
  /** One-sigma of the relative gain from the spread of the repeats. */
  readonly noise: number;
  /** Welch's degrees of freedom, rounded down. */
  readonly freedom: number;
  /** Interval of the gain that holds the truth at least 95 times in 100, as fractions. */
  readonly low: number;
  readonly high: number;
  /** Chance of seeing this much or more where nothing changed. */
  readonly chance: number;
  readonly beyondNoise: boolean;
  /** Pulls a side that would settle it with the spread seen so far, beyond those there are; 0: settled, null: more than MOST. */
  readonly morePulls: number | null;
}

/** Nothing is called something in at most 5 of 100 cases: a little under, since Welch's t runs up to 0.2 over with spreads of 1 to 3. */
const FALSE_ALARM = 0.045;
/** More pulls a side than this nobody makes; the gain is too small to matter then. Source: judgement. */
const MOST = 30;

/**
 * Whether the mean of `after` differs from that of `before` by more than their own spread explains: Welch's t on the relative
 * means, degrees of freedom rounded down. Null with fewer than two values on a side, or with repeats that are copies of each other.
 * Throws OutOfRange for a mean that is not positive. Sources: Student 1908, Welch 1947.
 */
export function gainTest(before: readonly number[], after: readonly number[]): GainTest | null {
  if (before.length < 2 || after.length < 2) return null;
  const [a, b] = [sideOf(before), sideOf(after)];
  if (a.variance + b.variance === 0) return null;
  const [va, vb] = [a.variance / before.length, b.variance / after.length];
  const noise = Math.sqrt(va + vb);
  const welch = (va + vb) ** 2 / (va ** 2 / (before.length - 1) + vb ** 2 / (after.length - 1));
  const freedom = Math.max(1, Math.floor(welch + 1e-9));
  const ratio = Math.log(b.mean / a.mean);
  const chance = tFurther(ratio / noise, freedom);
  const margin = tFor(FALSE_ALARM, freedom) * noise;
  const beyondNoise = chance < FALSE_ALARM;
  return {
    noise,
    freedom,
    low: Math.expm1(ratio - margin),
    high: Math.expm1(ratio + margin),
    chance,
    beyondNoise,
    morePulls: beyondNoise
      ? 0
      : more(Math.abs(ratio), a.variance + b.variance, Math.min(before.length, after.length)),
  };
}

/** Mean, and variance of one value relative to the mean. */
function sideOf(values: readonly number[]) {
  const mean = within(
    "mean torque of a side",
    values.reduce((s, v) => s + v, 0) / values.length,
    1e-6,
    1e6,
    "Nm",
  );
  const spread = values.reduce((s, v) => s + (v / mean - 1) ** 2, 0) / (values.length - 1);
  // Rounding of equal pulls is no spread.
  return { mean, variance: spread < 1e-20 ? 0 : spread };
}

function more(gain: number, variances: number, there: number): number | null {
  for (let n = there + 1; n <= MOST; n++)
    if (tFurther(gain / Math.sqrt(variances / n), 2 * n - 2) < FALSE_ALARM) return n - there;
  return null;
}
