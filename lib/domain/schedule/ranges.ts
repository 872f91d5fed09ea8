import { dayAfter } from "./localTime";

/** Days "YYYY-MM-DD", first and last included. */
export interface DayRange {
  readonly from: string;
  readonly to: string;
}

export const RANGES = ["month", "quarter", "year"] as const;
export type RangeName = (typeof RANGES)[number];

/**
 * The month in which a country's usual financial year begins. Source: Income Tax Assessment Act 1997 (AU), s 4-10 (1 July);
 * regnskapsloven (NO), § 1-7 (calendar year); from memory. The calendar year where nothing is known.
 */
const YEAR_BEGINS: Readonly<Record<string, number>> = { AU: 7, NZ: 4, NO: 1 };

const whole = (day: string) => Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7)) - 1;
const firstOf = (month: number) =>
  `${String(Math.floor(month / 12)).padStart(4, "0")}-${String((month % 12) + 1).padStart(2, "0")}-01`;

/** So many days lie in a range. */
export const daysIn = ({ from, to }: DayRange): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000) + 1;

/** The earlier of two days. */
export const earlier = (one: string, two: string): string => (one.localeCompare(two) < 0 ? one : two);

const LENGTHS: Readonly<Record<RangeName, number>> = { month: 1, quarter: 3, year: 12 };

/**
 * The month, quarter or financial year that a day lies in, and the one before it. Quarters are counted from the financial year's first
 * month. While the range still runs it ends with the day, and the one before it after as many days.
 */
export function rangeAround(
  name: RangeName,
  day: string,
  country: string,
): { readonly range: DayRange; readonly before: DayRange } {
  const length = LENGTHS[name];
  const begins = name === "month" ? 0 : (YEAR_BEGINS[country] ?? 1) - 1;
  const at = whole(day);
  const first = at - ((((at - begins) % length) + length) % length);
  const full = { from: firstOf(first), to: dayAfter(firstOf(first + length), -1) };
  const last = { from: firstOf(first - length), to: dayAfter(full.from, -1) };
  const range = { from: full.from, to: earlier(day, full.to) };
  const upTo = dayAfter(last.from, daysIn(range) - 1);
  const before = range.to === full.to || upTo > last.to ? last : { from: last.from, to: upTo };
  return { range, before };
}

/** As many days right before a range. */
export const daysBefore = (range: DayRange): DayRange => ({
  from: dayAfter(range.from, -daysIn(range)),
  to: dayAfter(range.from, -1),
});

/** The months that a range touches, "2026-11" first to last. */
export function monthsIn({ from, to }: DayRange): string[] {
  const first = whole(from);
  return Array.from({ length: whole(to) - first + 1 }, (_, at) => firstOf(first + at).slice(0, 7));
}
