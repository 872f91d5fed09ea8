import type { BookedFor } from "./bookedFor";
import type { Formats } from "./facts";

const made = new Map<string, Intl.DateTimeFormat>();

function formatOf(locale: string, zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${locale} ${zone} ${JSON.stringify(options)}`;
  const known = made.get(key) ?? new Intl.DateTimeFormat(locale, { ...options, timeZone: zone });
  made.set(key, known);
  return known;
}

const DAY = { weekday: "long", day: "numeric", month: "long" } as const;
const TIME = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;

/** An instant as the shop says it: "Wednesday 25 November, 10:30". */
export function whenText(at: Date | number, formats: Pick<Formats, "zone" | "locale">): string {
  return `${formatOf(formats.locale, formats.zone, DAY).format(at)}, ${timeText(at, formats.zone)}`;
}

/** The time on the shop's clock: "10:30". */
export function timeText(at: Date | number, zone: string): string {
  return formatOf("en-GB", zone, TIME).format(at);
}

export interface Told {
  startsAt: Date;
  endsAt: Date;
  dropOffAt: Date | null;
  pickUpAt: Date | null;
}

type News = "made" | "moved" | "cancelled";

const FIRST: Readonly<Record<News, string>> = {
  made: "Your bike is booked in.",
  moved: "Your booking has moved. These times hold now.",
  cancelled: "Your booking was cancelled. This time no longer holds.",
};
const SUBJECT: Readonly<Record<News, string>> = { made: "Booked", moved: "Moved", cancelled: "Cancelled" };

/** What the customer is told of a booking, times on the shop's clock. */
export function bookingMail(
  news: News,
  of: Pick<BookedFor, "name" | "title" | "bike" | "customer"> & { readonly job: boolean },
  booking: Told,
  formats: Formats,
): { subject: string; text: string } {
  const times =
    news === "cancelled"
      ? [`It was: ${whenText(booking.startsAt, formats)}`]
      : [
          `Bring it: ${whenText(booking.dropOffAt ?? booking.startsAt, formats)}`,
          `Work starts: ${whenText(booking.startsAt, formats)}`,
          `Ready about: ${whenText(booking.pickUpAt ?? booking.endsAt, formats)}`,
        ];
  const lines = [
    `Hello ${of.customer},`,
    "",
    FIRST[news],
    "",
    of.job ? `${of.name}: ${of.title}` : of.title,
    `Bike: ${of.bike}`,
    ...times,
    "",
    `These are the times on the shop's clock (${formats.zone}).`,
    formats.phone
      ? `If this does not suit you, call ${formats.phone}.`
      : "If this does not suit you, answer this mail.",
    "",
    formats.name,
  ];
  return {
    subject: `${SUBJECT[news]}: ${whenText(booking.startsAt, formats)}, ${formats.name}`,
    text: lines.join("\n"),
  };
}
