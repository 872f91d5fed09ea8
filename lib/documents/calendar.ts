import ical, { ICalCalendarMethod, ICalEventStatus } from "ical-generator";

export interface CalendarEntry {
  /** Stays the same through every change of the entry (RFC 5545, UID). */
  readonly uid: string;
  /** Grows with every change of the entry (RFC 5545, SEQUENCE). */
  readonly sequence: number;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly summary: string;
  readonly location: string;
  readonly description: string;
  readonly url?: string | undefined;
  readonly cancelled?: boolean | undefined;
}

export interface CalendarFile {
  readonly name: string;
  /** Of what the file says (RFC 5545, PRODID; RFC 5646). */
  readonly language?: string;
  readonly entries: readonly CalendarEntry[];
  /** The moment it is written for (RFC 5545, DTSTAMP). */
  readonly now: Date;
}

/** An iCalendar file (RFC 5545), instants in UTC: every reader shows them on its own clock. */
export function calendarText({ name, language = "en", entries, now }: CalendarFile): string {
  const calendar = ical({
    // The library writes a calendar's name as it is; everything else it escapes.
    name: escaped(name),
    prodId: { company: "Throttlewright", product: "Bookings", language: language.toUpperCase() },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const { uid, cancelled, startsAt, endsAt, url, ...entry } of entries)
    calendar.createEvent({
      ...entry,
      id: oneLine(uid),
      stamp: now,
      start: startsAt,
      end: endsAt,
      status: cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      ...(url === undefined ? {} : { url: oneLine(url) }),
    });
  return calendar.toString();
}

/** Text as RFC 5545, 3.3.11 writes it: backslash, semicolon, comma and line ends are marked, other control characters gone. */
function escaped(text: string): string {
  return oneLine(text.replace(/[\\;,]/g, "\\$&").replace(/\r\n?|\n/g, "\\n"));
}

/** Without control characters, which no line of a calendar may hold (RFC 5545, 3.1). */
function oneLine(text: string): string {
  return text.replace(/\p{Cc}/gu, "");
}
