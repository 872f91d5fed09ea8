import { Refusal, within } from "../refusal";
import { type Interval, merged } from "./intervals";
import { dayAfter, dayOf, instantOf, type Weekday, weekdayOf } from "./localTime";

/**
 * Working hours of a week: Monday is 1. Times are "HH:MM" on the shop's clock; "24:00" is midnight at the end of the day, and a
 * night shift is written as two stretches, one on each day.
 */
export type WeeklyHours = Readonly<
  Partial<Record<Weekday, readonly { readonly from: string; readonly to: string }[]>>
>;

/** Days on which nobody (closure) or one person (absence) works, first and last included. */
export interface DaysOff {
  readonly fromDay: string;
  readonly toDay: string;
}

/** All that decides when work is done: the week, the shop's closures, one person's absences, the shop's zone. */
export interface WorkingTime {
  readonly hours: WeeklyHours;
  readonly closures: readonly DaysOff[];
  readonly absences: readonly DaysOff[];
  readonly zone: string;
}

/**
 * The stretches of working time between two instants (epoch milliseconds), in order, not touching. Days are the zone's own, so
 * a shift over a change of the clocks has the length it really has. Refuses hours that end before they begin.
 */
export function workingIntervals(
  from: number,
  to: number,
  hours: WeeklyHours,
  closures: readonly DaysOff[],
  absences: readonly DaysOff[],
  zone: string,
): Interval[] {
  const found: Interval[] = [];
  if (to <= from) return found;
  const off = [...closures, ...absences];
  const lastDay = dayOf(to, zone);
  for (let day = dayOf(from, zone); day <= lastDay; day = dayAfter(day)) {
    if (off.some((days) => days.fromDay <= day && day <= days.toDay)) continue;
    for (const shift of hours[weekdayOf(day)] ?? []) {
      const [opens, closes] = [instantOf(day, shift.from, zone), instantOf(day, shift.to, zone)];
      if (shift.to <= shift.from)
        throw new Refusal(
          `Working hours from ${shift.from} to ${shift.to} end before they begin.`,
          "Correct the working hours.",
        );
      found.push({ startsAt: Math.max(from, opens), endsAt: Math.min(to, closes) });
    }
  }
  return merged(found);
}

const MINUTE = 60_000;
const DAY = 86_400_000;
const HORIZON_DAYS = 366;
/** No work ends later than this after it begins, in milliseconds: what `spanOf` looks ahead at most. */
export const LONGEST_SPAN_MS = HORIZON_DAYS * DAY;

/**
 * When work of so many minutes is done that starts at `startsAt` and goes on over working time only, through nights, weekends and
 * closures. Started outside working time it begins with the next. Refuses work that does not end within `horizonDays`.
 */
export function spanOf(
  startsAt: number,
  minutes: number,
  working: WorkingTime,
  horizonDays = HORIZON_DAYS,
): number {
  within("minutes of work", minutes, 1, 1_000_000);
  // Most work ends within days, so the search looks at doubling stretches of time.
  for (let days = 4; ; days = Math.min(days * 2, horizonDays)) {
    const { hours, closures, absences, zone } = working;
    const end = endWithin(
      workingIntervals(startsAt, startsAt + days * DAY, hours, closures, absences, zone),
      startsAt,
      minutes,
    );
    if (end !== null) return end;
    if (days >= horizonDays)
      throw new Refusal(
        `${minutes} minutes of work do not fit into the next ${horizonDays} days.`,
        "Check the working hours and absences.",
      );
  }
}

/** The same over stretches already known; null when they are too few. */
export function endWithin(intervals: readonly Interval[], startsAt: number, minutes: number): number | null {
  let left = minutes * MINUTE;
  for (const interval of intervals) {
    if (interval.endsAt <= startsAt) continue;
    const begin = Math.max(interval.startsAt, startsAt);
    if (begin + left <= interval.endsAt) return begin + left;
    left -= interval.endsAt - begin;
  }
  return null;
}
