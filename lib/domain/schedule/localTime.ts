import { Temporal } from "temporal-polyfill";
import { Refusal } from "../refusal";

export { dayAfter } from "./calendarDay";

/**
 * The instant (epoch milliseconds) of a wall-clock time ("HH:MM") on a day ("YYYY-MM-DD") in an IANA zone; "24:00" is the end of
 * the day. A time that the clock skips is taken as far after the skip as it was into it, a time that comes twice is taken
 * the first time ("compatible" of RFC 5545 and Temporal). Refuses days, times and zones that do not exist.
 */
export function instantOf(day: string, time: string, zone: string): number {
  const date = plainDay(day);
  if (!/^([01]\d|2[0-3]):[0-5]\d$|^24:00$/.test(time))
    throw new Refusal(`“${time}” is no time of day.`, "Enter hours and minutes, such as 08:30.");
  const at = time === "24:00" ? date.add({ days: 1 }).toPlainDateTime() : date.toPlainDateTime(time);
  return inZone(zone, () => at.toZonedDateTime(zone, { disambiguation: "compatible" }).epochMilliseconds);
}

/** The local day ("YYYY-MM-DD") of an instant in a zone. */
export function dayOf(at: number, zone: string): string {
  return inZone(zone, () =>
    Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone).toPlainDate().toString(),
  );
}

/** Whole minutes after midnight of an instant (epoch milliseconds) on the clock of a zone. Refuses a zone that does not exist. */
export function minuteOfDay(at: number, zone: string): number {
  const { hour, minute } = inZone(zone, () =>
    Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone),
  );
  return hour * 60 + minute;
}

/** Days from one calendar day to another; below zero where the other is earlier. */
export function daysBetween(from: string, to: string): number {
  return plainDay(from).until(plainDay(to)).days;
}

/** 1 for Monday to 7 for Sunday (ISO 8601). */
export function weekdayOf(day: string): Weekday {
  return plainDay(day).dayOfWeek as Weekday;
}

/** Hours between a day's start and the next day's in a zone: 23 or 25 when the clocks change by an hour. */
export function hoursInDay(day: string, zone: string): number {
  return inZone(zone, () => plainDay(day).toZonedDateTime(zone).hoursInDay);
}

export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

function plainDay(day: string): Temporal.PlainDate {
  try {
    if (/^\d{4}-\d\d-\d\d$/.test(day)) return Temporal.PlainDate.from(day, { overflow: "reject" });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
  }
  throw new Refusal(`“${day}” is no day.`, "Enter a day as year-month-day, such as 2026-03-29.");
}

function inZone<T>(zone: string, compute: () => T): T {
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new Refusal(
      `The time zone “${zone}” is not known, or the time is out of reach.`,
      "Choose a zone such as Europe/Oslo.",
    );
  }
}
