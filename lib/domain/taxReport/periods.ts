import { Temporal } from "temporal-polyfill";

/** How long reporting periods are, in months; each begins with the year. */
export const PERIOD_MONTHS = [1, 2, 3, 6, 12] as const;
export type PeriodMonths = (typeof PERIOD_MONTHS)[number];

/** A stretch of days, both ends counting. */
export interface Days {
  readonly from: string;
  readonly to: string;
}

/** The period of so many months that a day lies in: months 2 puts 2026-11-25 into November and December. */
export function periodOf(day: string, months: PeriodMonths): Days {
  const at = Temporal.PlainDate.from(day);
  const first = at.with({ day: 1, month: at.month - ((at.month - 1) % months) });
  return { from: first.toString(), to: first.add({ months }).subtract({ days: 1 }).toString() };
}

/** The same stretch `by` periods later; a stretch of the person's own is moved by its own length. */
export function periodBeside({ from, to }: Days, months: PeriodMonths | null, by: 1 | -1): Days {
  const first = Temporal.PlainDate.from(from);
  if (months !== null) return periodOf(first.add({ months: months * by }).toString(), months);
  const length = first.until(Temporal.PlainDate.from(to)).days + 1;
  return {
    from: first.add({ days: length * by }).toString(),
    to: Temporal.PlainDate.from(to)
      .add({ days: length * by })
      .toString(),
  };
}

/** A stretch cut into pieces of one calendar month at most, in order. */
export function monthsOf({ from, to }: Days): Days[] {
  const pieces: Days[] = [];
  for (let first = from; first <= to; ) {
    const { to: last } = periodOf(first, 1);
    pieces.push({ from: first, to: last < to ? last : to });
    first = Temporal.PlainDate.from(last).add({ days: 1 }).toString();
  }
  return pieces;
}
