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

type News = "made" | "moved" | "cancelled";

const FIRST = {
  made: "mails.bookingMade",
  moved: "mails.bookingMoved",
  cancelled: "mails.bookingCancelled",
} as const;
const SUBJECT = {
  made: "mails.subjectMade",
  moved: "mails.subjectMoved",
  cancelled: "mails.subjectCancelled",
} as const;

/** What the customer is told of a booking, times on the shop's clock. `job` is its number; null where there is none yet. */
export function bookingMail(
  news: News,
  of: Pick<BookedFor, "title" | "bike" | "customer"> & { readonly job: string | null },
  booking: Told,
  formats: Formats,
): { subject: string; text: string } {
  const say = wordsIn(formats.locale);
  const when = (at: Date) => whenText(at, formats);
  const times =
    news === "cancelled"
      ? [say("mails.itWas", { when: when(booking.startsAt) })]
      : [
          say("mails.bringIt", { when: when(booking.dropOffAt ?? booking.startsAt) }),
          say("mails.workStarts", { when: when(booking.startsAt) }),
          say("mails.readyAbout", { when: when(booking.pickUpAt ?? booking.endsAt) }),
        ];
  const lines = [
    say("mails.hello", { name: of.customer }),
    "",
    say(FIRST[news]),
    "",
    of.job === null ? of.title : say("mails.visitJob", { number: String(of.job), title: of.title }),
    say("mails.bike", { bike: of.bike }),
    ...times,
    "",
    say("mails.shopsClock", { zone: formats.zone }),
    formats.phone ? say("mails.call", { phone: formats.phone }) : say("mails.answerThis"),
    "",
    formats.name,
  ];
  return {
    subject: say(SUBJECT[news], { when: when(booking.startsAt), shop: formats.name }),
    text: lines.join("\n"),
  };
}
