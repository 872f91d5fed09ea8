/** A stretch of time in epoch milliseconds: from its start up to, not including, its end. */
export interface Interval {
  readonly startsAt: number;
  readonly endsAt: number;
}

/** Whether two stretches share any time. One that starts as the other ends does not. */
export function overlaps(a: Interval, b: Interval): boolean {
  return a.startsAt < b.endsAt && b.startsAt < a.endsAt;
}

/** The same time as stretches in order that neither touch nor overlap. Stretches without length are dropped. */
export function merged(intervals: readonly Interval[]): Interval[] {
  const result: { startsAt: number; endsAt: number }[] = [];
  for (const { startsAt, endsAt } of intervals.toSorted((a, b) => a.startsAt - b.startsAt)) {
    const last = result.at(-1);
    if (endsAt <= startsAt) continue;
    if (last && startsAt <= last.endsAt) last.endsAt = Math.max(last.endsAt, endsAt);
    else result.push({ startsAt, endsAt });
  }
  return result;
}

/** Milliseconds covered by stretches in order that do not overlap, within one stretch. */
export function lengthWithin(intervals: readonly Interval[], within: Interval): number {
  return intervals.reduce(
    (sum, { startsAt, endsAt }) =>
      sum + Math.max(0, Math.min(endsAt, within.endsAt) - Math.max(startsAt, within.startsAt)),
    0,
  );
}
