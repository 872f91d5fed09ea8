import { dateText, instantText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import type { ShapeName, Tone } from "@/app/_ui/Shape";
import type { TodayView } from "@/lib/data/today/today";
import { backupOf } from "@/lib/gate/backups";
import type { OpenShop } from "@/lib/gate/open";
import { levelWord } from "@/lib/schemas/chasing";
import { quantityText } from "@/lib/schemas/quantity";
import { runAnswerWord } from "@/lib/schemas/runAnswers";
import { WAIT_WORDS } from "@/lib/schemas/waits";
import { wishText } from "@/lib/schemas/wishes";

export interface TodayLine {
  readonly key: string;
  readonly shape: ShapeName;
  readonly tone?: Tone | undefined;
  readonly word: string;
  readonly title: string;
  readonly text: string;
  readonly act: string;
  readonly href: string;
}

const VARIATION_WORDS: Readonly<Record<string, string>> = {
  sent: "extra work, no answer",
  expired: "extra work, ran out",
  declined: "extra work, declined",
};

const days = (count: number) => (count === 0 ? "today" : count === 1 ? "1 day" : `${count} days`);

/** What needs a hand, most pressing first: what stops work, who stands at the door, what waits, what is owed. */
export function linesOf(today: TodayView, shop: OpenShop): TodayLine[] {
  return [
    ...floorLines(today, shop),
    ...deskLines(today, shop),
    ...moneyLines(today, shop),
    ...copyLines(shop),
  ];
}

function floorLines(today: TodayView, shop: OpenShop): TodayLine[] {
  const base = `/s/${shop.slug}`;
  const { locale, zone } = shop.settings;
  const works = shop.can("job.work");
  const job = (id: number, rest = "") => `${base}/jobs/${id}${rest}`;
  const forgotten = today.running.filter(
    (entry) => entry.forgotten && (entry.own || shop.can("time.correct")),
  );
  return [
    ...today.stopped.map((one) => ({
      key: `stopped${one.id}`,
      shape: "diamond" as const,
      tone: "oxide" as const,
      word: "stopped",
      title: `Job ${one.number}`,
      text: `${one.bike} · ${one.stopped}`,
      act: works ? "Measure again" : "Open the job",
      href: job(one.id, works ? "/card" : ""),
    })),
    ...today.handed.map((one) => ({
      key: `handed${one.id}`,
      shape: "triangle" as const,
      tone: "brass" as const,
      word: "handed to you",
      title: `Job ${one.job.number}`,
      text: `${one.job.bike} · ${one.from ? `${one.from}: ` : ""}${one.note}`,
      act: "Open the card",
      href: job(one.job.id, "/card"),
    })),
    ...today.waits.map((one) => ({
      key: `waits${one.id}`,
      shape: one.late ? ("diamond" as const) : ("circle" as const),
      ...(one.late ? { tone: "oxide" as const } : {}),
      word: one.late ? "waits too long" : "waits",
      title: `Job ${one.job.number}`,
      text: `for ${WAIT_WORDS[one.reason]}${one.untilOn ? `, until ${dateText(one.untilOn, locale)}` : ""} · ${[one.job.bike, one.job.customer, one.note].filter(Boolean).join(" · ")}`,
      act: works ? "Open the card" : "Open the job",
      href: job(one.job.id, works ? "/card" : ""),
    })),
    ...forgotten.map((entry) => ({
      key: `time${entry.id}`,
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: "time runs on",
      title: `Job ${entry.jobNumber}`,
      text: `${entry.own ? "Your" : `${entry.staff}'s`} time, since ${instantText(entry.startedAt, locale, zone)}`,
      act: "Say when it stopped",
      href: `${base}/jobs/time/${entry.id}`,
    })),
    ...today.arrivals.map((one) => ({
      key: `arrives${one.id}`,
      shape: "square" as const,
      tone: "ink" as const,
      word: `arrives ${instantText(one.at, locale, zone, "time")}`,
      title: `Job ${one.number}`,
      text: `${one.bike} · ${one.customer}`,
      act: shop.can("intake.write") ? "It is here" : "Open the job",
      href: shop.can("intake.write") ? `${base}/arrivals/new?job=${one.id}` : job(one.id),
    })),
    ...today.bookedIn.map((one) => ({
      key: `bookedIn${one.id}`,
      shape: "square" as const,
      tone: "ink" as const,
      word: `arrives ${instantText(one.at, locale, zone, "time")}`,
      title: one.of.customer,
      text: `${one.of.bike} · ${one.of.title}`,
      act: shop.can("intake.write") ? "It is here" : "Open the booking",
      href: shop.can("intake.write")
        ? `${base}/arrivals/new?booking=${one.id}`
        : `${base}/bookings/${one.id}`,
    })),
    ...today.toRide.map((one) => ({
      key: `ride${one.id}`,
      shape: "triangle" as const,
      tone: "brass" as const,
      word: "to be ridden",
      title: `Job ${one.number}`,
      text: `${one.bike} · closed up`,
      act: works ? "Test ride" : "Open the job",
      href: job(one.id, works ? "/ride" : ""),
    })),
  ];
}

function deskLines(today: TodayView, shop: OpenShop): TodayLine[] {
  const base = `/s/${shop.slug}`;
  const { currency, locale } = shop.settings;
  return [
    ...today.questions.map((one) => ({
      key: `asked${one.id}`,
      shape: "triangle" as const,
      tone: "brass" as const,
      word: "asked",
      title: `Quote ${one.quote.number}`,
      text: `${one.quote.customer.name} · ${one.text.slice(0, 90)}`,
      act: shop.can("quote.write") ? "Answer" : "Open the quote",
      href: `${base}/quotes/${one.quote.id}`,
    })),
    ...(shop.can("quote.send") ? today.failed : []).map((one) => ({
      key: `mail${one.id}`,
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: "letter not sent",
      title: one.subject,
      text: [`to ${one.to}`, one.failure.slice(0, 90)].filter(Boolean).join(" · "),
      act: "Look at the mail",
      href: `${base}/shop/mail`,
    })),
    ...today.answers.map(({ job, ...one }) => ({
      key: `runs${one.id}`,
      shape: "triangle" as const,
      tone: one.answer === "runsWell" ? ("pine" as const) : ("oxide" as const),
      word: "answered",
      title: job.bike,
      text: [
        `${runAnswerWord(one.answer)}, after job ${job.number}`,
        one.words.slice(0, 90),
        job.customer.name,
      ]
        .filter(Boolean)
        .join(" · "),
      act: "Look at it",
      href: `${base}/jobs/${job.id}#how-it-runs`,
    })),
    ...today.nearAmount.map((one) => ({
      key: `amount${one.id}`,
      shape: "triangle" as const,
      tone: one.state === "over" ? ("oxide" as const) : ("brass" as const),
      word: one.state === "over" ? "past the amount agreed" : "near the amount agreed",
      title: `Job ${one.number}`,
      text: `${moneyText(one.spentMinor ?? 0, currency, locale)} of ${moneyText(one.upToMinor, currency, locale)} · ${one.customer.name} ${one.customer.phone}`.trim(),
      act: "Ask for a yes",
      href: `${base}/jobs/${one.id}`,
    })),
    ...today.variations.map((one) => ({
      key: `variation${one.id}`,
      shape: "diamond" as const,
      tone: one.state === "sent" ? ("brass" as const) : ("oxide" as const),
      word: VARIATION_WORDS[one.state] ?? one.state,
      title: `Job ${one.variationOf?.number}`,
      text: [one.title, one.customer.name, one.declineReason].filter(Boolean).join(" · "),
      act: one.state === "sent" ? "Ask for an answer" : "Look at it",
      href: `${base}/quotes/${one.id}`,
    })),
    ...today.findings.map((one) => ({
      key: `found${one.id}`,
      shape: "diamond" as const,
      word: "found",
      title: `Job ${one.job.number}`,
      text: one.text,
      act: shop.can("quote.write") ? "Quote it" : "Open the job",
      href: shop.can("quote.write")
        ? `${base}/quotes/new?bike=${one.job.bikeId}&job=${one.job.id}&finding=${one.id}`
        : `${base}/jobs/${one.job.id}`,
    })),
    ...today.short.map((one) => ({
      key: `short${one.id}`,
      shape: "diamond" as const,
      word: "waits, part",
      title: `Job ${one.number}`,
      text: `${one.bike} · ${one.parts
        .map(
          (part) =>
            `${part.name} × ${quantityText(part.shortMilli, part.unit)}${part.onOrderMilli > 0 ? ", on order" : ""}`,
        )
        .join(", ")}`,
      act: "See the part",
      href: `${base}/stock/${one.parts[0]?.id}`,
    })),
    ...(shop.can("booking.write") ? today.unbooked : []).map((one) => ({
      key: `book${one.id}`,
      shape: "circle" as const,
      word: one.arrivedAt ? "here, no time" : "no time yet",
      title: `Job ${one.number}`,
      text: `${one.bike} · ${one.customer}${one.wish ? ` · wishes ${wishText(one.wish, shop.settings.locale)}` : ""}`,
      act: "Book it in",
      href: `${base}/bookings/new?job=${one.id}`,
    })),
    ...today.followUps.map((one) => ({
      key: `follow${one.id}`,
      shape: "circle" as const,
      word: "follow-up",
      title: one.bike,
      text: `${one.customer} · ${one.what}`,
      act: shop.can("followUp.write") ? "Finish it" : "Open the bike",
      href: shop.can("followUp.write")
        ? `${base}/follow-ups#follow-up-${one.id}`
        : `${base}/bikes/${one.bikeId}`,
    })),
    ...today.parts
      .filter((part) => !part.covered)
      .map((part) => ({
        key: `part${part.id}`,
        shape: "square" as const,
        word: "below point",
        title: part.name,
        text: `${quantityText(part.freeMilli, part.unit)} free, point ${quantityText(part.pointMilli, part.unit)}`,
        act: shop.can("stock.write") ? "Order it" : "See the part",
        href: `${base}/stock/${part.id}`,
      })),
  ];
}

function moneyLines(today: TodayView, shop: OpenShop): TodayLine[] {
  const base = `/s/${shop.slug}`;
  const { currency, locale } = shop.settings;
  const money = (minor: number) => moneyText(minor, currency, locale);
  // An invoice of which a reminder is due stands there once.
  const notReminded = (one: { id: number }) => !today.reminders.some((due) => due.id === one.id);
  const [notClosed] = today.notClosed;
  return [
    ...(notClosed === undefined ? [] : [notClosedLine(notClosed, today.notClosed.length, base, locale)]),
    ...today.ready.map((one) => ({
      key: `ready${one.id}`,
      shape: "filled" as const,
      tone: "pine" as const,
      word: "ready",
      title: `Job ${one.number}`,
      text: `${one.bike} · ${one.customer}`,
      act: shop.can("invoice.write") ? "Invoice" : "Handover",
      href: shop.can("invoice.write")
        ? `${base}/invoices/new?job=${one.id}`
        : `${base}/jobs/${one.id}/handover`,
    })),
    ...today.toGiveBack.map((one) => ({
      key: `back${one.id}`,
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: "to give back",
      title: `Job ${one.number}`,
      text: `${money(one.depositLeftMinor)} held of a cancelled job · ${one.customer}`,
      act: shop.can("payment.write") ? "Give it back" : "Open it",
      href: `${base}/invoices/new?job=${one.id}`,
    })),
    ...today.quotes.map((one) => ({
      key: `quote${one.id}`,
      shape: "circle" as const,
      ...(one.endsInDays < 3 ? { tone: "oxide" as const } : {}),
      word: one.endsInDays < 0 ? "ran out" : "no answer yet",
      title: `Quote ${one.number}`,
      text: `${money(one.grossMinor)} · ${one.customer.name}, sent ${days(one.sentDays)}${one.sentDays > 0 ? " ago" : ""}${
        one.endsInDays < 0 ? "" : `, ends ${one.endsInDays === 0 ? "today" : `in ${days(one.endsInDays)}`}`
      }`,
      act: one.endsInDays < 0 ? "Look at it" : "Remind",
      href: `${base}/quotes/${one.id}`,
    })),
    ...today.reminders.map((one) => ({
      key: `remind${one.id}`,
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: `${levelWord(one.next.level)} due`,
      title: `Invoice ${one.written}`,
      text: `${money(one.leftMinor)} open, late ${days(one.lateDays)} · ${one.customer?.name ?? ""}`,
      act: "Look and send",
      href: `${base}/invoices/${one.id}/remind`,
    })),
    ...(today.reminders.length > 1
      ? [
          {
            key: "reminders",
            shape: "triangle" as const,
            tone: "oxide" as const,
            word: "reminders due",
            title: "All together",
            text: "looked through on one page",
            act: "Look and send",
            href: `${base}/invoices/reminders`,
          },
        ]
      : []),
    ...today.invoices.filter(notReminded).map((one) => ({
      key: `invoice${one.id}`,
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: `late ${days(one.lateDays)}`,
      title: `Invoice ${one.written}`,
      text: `${money(one.openMinor)} open · ${one.customer}`,
      act: "Open it",
      href: `${base}/invoices/${one.id}`,
    })),
  ];
}

const notClosedLine = (day: string, many: number, base: string, locale: string): TodayLine => ({
  key: "notClosed",
  shape: "triangle",
  tone: "oxide",
  word: many === 1 ? "day not closed" : "days not closed",
  title: dateText(day, locale),
  text: many === 1 ? "its drawer was not counted" : `and ${days(many - 1)} more: drawers were not counted`,
  act: "Count it",
  href: `${base}/books/day`,
});

/** Whoever may change the shop's settings hears of it when its records are not being copied. */
function copyLines(shop: OpenShop): TodayLine[] {
  if (!shop.can("shop.write")) return [];
  const { late, goodAt } = backupOf(shop.database, shop.now);
  if (!late) return [];
  const { locale, zone } = shop.settings;
  return [
    {
      key: "backup",
      shape: "triangle" as const,
      tone: "oxide" as const,
      word: "no backup",
      title: "Backup",
      text: goodAt
        ? `The last good copy of this shop is of ${instantText(goodAt.toISOString(), locale, zone)}. Tell whoever runs the server.`
        : "There is no good copy of this shop yet. Tell whoever runs the server.",
      act: "Look",
      href: `/s/${shop.slug}/shop/settings#backup`,
    },
  ];
}
