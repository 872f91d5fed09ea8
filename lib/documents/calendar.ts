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
  readonly entries: readonly CalendarEntry[];
  /** The moment it is written for (RFC 5545, DTSTAMP). */
  readonly now: Date;
}

/** An iCalendar file (RFC 5545), instants in UTC: every reader shows them on its own clock. */
export function calendarText({ name, entries, now }: CalendarFile): string {
  const calendar = ical({
    name,
    prodId: { company: "Throttlewright", product: "Bookings", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const { uid, cancelled, startsAt, endsAt, url, ...entry } of entries)
    calendar.createEvent({
      ...entry,
      id: uid,
      stamp: now,
      start: startsAt,
      end: endsAt,
      status: cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      ...(url === undefined ? {} : { url }),
    });
  return calendar.toString();
}
