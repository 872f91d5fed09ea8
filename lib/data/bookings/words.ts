import type { LetterKind } from "@/lib/domain/letters/kinds";
import { wordsIn } from "@/lib/words/words";
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

export type News = "made" | "moved" | "cancelled" | "missed" | "dayBefore";

const KIND = {
  made: "booking",
  moved: "change",
  cancelled: "cancelled",
  missed: "missed",
  dayBefore: "dayBefore",
} as const satisfies Record<News, LetterKind>;

type Of = Pick<BookedFor, "title" | "bike" | "customer"> & {
  /** The job's number; null where there is none yet. */
  readonly job: string | null;
};

/** What the customer is told of a booking, times on the shop's clock. */
export function bookingLetter(
  news: News,
  of: Of,
  booking: Told,
  formats: Pick<Formats, "zone" | "locale">,
  free: readonly number[] = [],
) {
  const when = (at: Date) => whenText(at, formats);
  const values = {
    name: of.customer,
    work:
      of.job === null
        ? of.title
        : wordsIn(formats.locale)("mails.visitJob", { number: String(of.job), title: of.title }),
    bike: of.bike,
    zone: formats.zone,
    starts: when(booking.startsAt),
    was: when(news === "missed" ? (booking.dropOffAt ?? booking.startsAt) : booking.startsAt),
    offer: free.map((at) => whenText(at, formats)).join("; "),
    bring: when(booking.dropOffAt ?? booking.startsAt),
    ready: when(booking.pickUpAt ?? booking.endsAt),
  };
  return { kind: KIND[news], values };
}
