import { Temporal } from "temporal-polyfill";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, dayWords } from "@/lib/domain/schedule/days";
import type { Clock } from "../../common/zone";

const local = (at: Date, zone: string) =>
  Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone);

/** Day and time on the shop's clock, for a sentence: 24 Nov 2026, 16:30. */
export function clockOf(at: Date, { zone, locale }: Clock): string {
  return `${dayWords(dayIn(zone, at), locale)}, ${localField(at, zone).slice(-5)}`;
}

/** As a datetime-local field holds it. */
export function localField(at: Date, zone: string): string {
  return local(at, zone).toPlainDateTime().toString({ smallestUnit: "minute" });
}

/** The instant a datetime-local field means on the shop's clock. */
export function instantOfField(text: string, zone: string, field: string): Date {
  try {
    const at = Temporal.PlainDateTime.from(text).toZonedDateTime(zone, { disambiguation: "compatible" });
    return new Date(at.epochMilliseconds);
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new Refusal("This is no day and time.", "Enter them such as 2026-11-25 16:30.", {
      [field]: "Enter a day and a time.",
    });
  }
}
