import { Temporal } from "temporal-polyfill";

/** The shop's calendar day of an instant, "2026-11-25". */
export function dayIn(zone: string, at: Date): string {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone).toPlainDate().toString();
}

export function daysAfter(day: string, days: number): string {
  return Temporal.PlainDate.from(day).add({ days }).toString();
}

/** The instant at which a day is over on the shop's clock. */
export function endOfDay(day: string, zone: string): Date {
  const after = Temporal.PlainDate.from(day).add({ days: 1 }).toZonedDateTime(zone);
  return new Date(after.epochMilliseconds);
}
