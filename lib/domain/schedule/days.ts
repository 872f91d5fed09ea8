import { Temporal } from "temporal-polyfill";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";

/** The shop's calendar day of an instant, "2026-11-25". */
export function dayIn(zone: string, at: Date): string {
  return dayOf(at.getTime(), zone);
}

export function daysAfter(day: string, days: number): string {
  return dayAfter(day, days);
}

/** The same day of the month some months later, or that month's last. */
export function monthsAfter(day: string, months: number): string {
  return Temporal.PlainDate.from(day).add({ months }).toString();
}

/** The last day of the month before a day's. */
export function lastDayOfMonthBefore(day: string): string {
  return Temporal.PlainDate.from(day).with({ day: 1 }).subtract({ days: 1 }).toString();
}

/** The instant at which a day is over on the shop's clock. */
export function endOfDay(day: string, zone: string): Date {
  return new Date(instantOf(day, "24:00", zone));
}

const formats = new Map<string, Intl.DateTimeFormat>();

/** A day as people of the locale write it: "4 Dec 2026". */
export function dayWords(day: string, locale: string): string {
  const format =
    formats.get(locale) ??
    new Intl.DateTimeFormat(locale, { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
  formats.set(locale, format);
  return format.format(new Date(`${day}T00:00:00Z`));
}
