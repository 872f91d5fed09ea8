import { type CalendarDate, type CalendarDateTime, parseDate, parseDateTime } from "@internationalized/date";
import type { DateSegment } from "react-stately/useDateFieldState";
import type { DateKind } from "./DateField";

/** A time alone stands on some day. */
const SOME_DAY = "2001-01-01";

/** The date or time that an ISO text says; null where it says none. */
export function dateOf(kind: DateKind, text: string): CalendarDate | CalendarDateTime | null {
  try {
    if (kind === "date") return parseDate(text);
    return parseDateTime(kind === "time" ? `${SOME_DAY}T${text}` : text);
  } catch {
    // Blank, half typed, or a day that no calendar has.
    return null;
  }
}

/** What is sent: ISO where every place is filled, nothing where none is, else the places as they stand, which no form takes. */
export function textOf(kind: DateKind, segments: readonly DateSegment[]): string {
  const places = segments.filter((one) => one.isEditable);
  if (places.every((one) => one.isPlaceholder)) return "";
  if (places.some((one) => one.isPlaceholder)) return segments.map((one) => one.text).join("");
  const digits = (type: DateSegment["type"], many = 2) =>
    String(places.find((one) => one.type === type)?.value ?? 0).padStart(many, "0");
  const day = `${digits("year", 4)}-${digits("month")}-${digits("day")}`;
  const time = `${digits("hour")}:${digits("minute")}`;
  return { date: day, time, "datetime-local": `${day}T${time}` }[kind];
}
