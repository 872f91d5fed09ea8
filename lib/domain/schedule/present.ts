import { weekdayOf } from "./localTime";
import type { DaysOff, WeeklyHours } from "./working";

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

/** Minutes of a week's day as they stand in the hours: a change of the clocks inside a shift is not looked for. */
const minutesOn = (hours: WeeklyHours, day: string): number =>
  (hours[weekdayOf(day)] ?? []).reduce((sum, { from, to }) => sum + minutesOf(to) - minutesOf(from), 0);

/** Minutes that one person is there on each of some days ("YYYY-MM-DD"): the shift's length, nothing on days off. */
export const presentOn = (days: readonly string[], hours: WeeklyHours, off: readonly DaysOff[]): number[] =>
  days.map((day) => (off.some((one) => one.fromDay <= day && day <= one.toDay) ? 0 : minutesOn(hours, day)));
