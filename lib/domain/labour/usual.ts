/** What something usually takes here. */
export interface Usual {
  /** Jobs that it rests on. */
  readonly jobs: number;
  readonly median: number;
  /** A quarter of the jobs took less, a quarter more; null for fewer than four jobs. */
  readonly middleHalf: { readonly from: number; readonly to: number } | null;
}

/** Fewer say nothing of a spread. Source: judgement. */
const LEAST_FOR_SPREAD = 4;

/** A quantile of sorted values by linear interpolation. Source: Hyndman and Fan, 1996, type 7. */
function quantile(sorted: readonly number[], share: number): number {
  const at = (sorted.length - 1) * share;
  const below = sorted[Math.floor(at)] ?? 0;
  const above = sorted[Math.ceil(at)] ?? below;
  return below + (above - below) * (at - Math.floor(at));
}

/** Median and middle half of the minutes that jobs took, one value for each job; null for none. */
export function usually(minutes: readonly number[]): Usual | null {
  if (minutes.length === 0) return null;
  const sorted = [...minutes].sort((a, b) => a - b);
  return {
    jobs: sorted.length,
    median: quantile(sorted, 0.5),
    middleHalf:
      sorted.length < LEAST_FOR_SPREAD ? null : { from: quantile(sorted, 0.25), to: quantile(sorted, 0.75) },
  };
}
