import type { ShopHandle } from "@/lib/db/shop";
import { dayIn, daysAfter, dayWords } from "@/lib/domain/schedule/days";
import { bikeName } from "../bikes/bikeName";

/** Looks at so many quotes that are out; a small shop has fewer. */
const MOST = 200;
const SOON_DAYS = 3;
const QUIET_DAYS = 4;

export interface CallFacts {
  readonly today: string;
  /** In which days are written. */
  readonly locale: string;
  readonly callOn: string | null;
  readonly validUntil: string;
  /** Whole days since it was sent. */
  readonly sentDays: number;
  readonly opened: boolean;
  /** Questions without an answer. */
  readonly questions: number;
  /** Whole days since the last reminder; null where none went out. */
  readonly remindedDays: number | null;
}

/**
 * Why someone should call about a quote that is out, the most pressing first; empty while it may rest. A question waits longest
 * for nobody; then a call that was promised, an end that is near, silence after it was read, silence before. Judgement.
 */
export function whyCall(facts: CallFacts): { rank: number; why: string }[] {
  const { today, locale, callOn, validUntil, sentDays, opened, questions, remindedDays } = facts;
  if (callOn !== null && callOn > today && questions === 0) return [];
  const quiet = Math.min(sentDays, remindedDays ?? sentDays);
  const said = (rank: number, when: boolean, why: string) => (when ? [{ rank, why }] : []);
  return [
    ...said(0, questions > 0, questions === 1 ? "asked a question" : `asked ${questions} questions`),
    ...said(1, callOn !== null && callOn <= today, `to be called on ${dayWords(callOn ?? today, locale)}`),
    ...said(
      2,
      validUntil <= daysAfter(today, SOON_DAYS),
      validUntil === today ? "runs out today" : `runs out on ${dayWords(validUntil, locale)}`,
    ),
    ...said(3, opened && quiet >= QUIET_DAYS, `read, and silent for ${quiet} days`),
    ...said(4, !opened && quiet >= QUIET_DAYS, `not opened for ${quiet} days`),
  ];
}

export interface ToCall {
  readonly id: number;
  readonly number: string;
  readonly customer: string;
  readonly phone: string;
  readonly bike: string;
  readonly title: string;
  readonly grossMinor: number;
  readonly why: readonly string[];
}

/** Whom to call about a quote, the most pressing first and of those the dearest. */
export async function quotesToCall(shop: ShopHandle, most = 8): Promise<ToCall[]> {
  const { zone, locale } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, locale: true },
  });
  const today = dayIn(zone, shop.now);
  const rows = await shop.read.quote.findMany({
    where: { state: "sent", validUntil: { gte: today } },
    select: {
      id: true,
      number: true,
      title: true,
      grossMinor: true,
      validUntil: true,
      sentAt: true,
      callOn: true,
      remindedAt: true,
      customer: { select: { name: true, phone: true } },
      bike: { select: { year: true, modelCard: { select: { make: true, model: true } } } },
      questions: { where: { answeredAt: null }, select: { id: true }, orderBy: { id: "asc" }, take: 10 },
      revisions: {
        select: {
          id: true,
        },
        orderBy: { number: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
  const ids = rows.flatMap((r) => r.revisions.map((v) => v.id));
  const links = await shop.read.customerLink.findMany({
    where: { revisionId: { in: ids }, openedAt: { not: null } },
    select: { revisionId: true },
    orderBy: { id: "asc" },
    take: MOST * 5,
  });
  const opened = new Set(links.map((l) => l.revisionId));
  const days = (at: Date) => Math.max(0, Math.floor((shop.now.getTime() - at.getTime()) / 86_400_000));
  return rows
    .map(({ customer, bike, questions, revisions, callOn, validUntil, sentAt, remindedAt, ...row }) => ({
      ...row,
      customer: customer.name,
      phone: customer.phone,
      bike: bikeName(bike),
      reasons: whyCall({
        today,
        locale,
        callOn,
        validUntil,
        sentDays: sentAt ? days(sentAt) : 0,
        opened: revisions.some((v) => opened.has(v.id)),
        questions: questions.length,
        remindedDays: remindedAt ? days(remindedAt) : null,
      }),
    }))
    .filter((row) => row.reasons.length > 0)
    .sort((a, b) => (a.reasons[0]?.rank ?? 9) - (b.reasons[0]?.rank ?? 9) || b.grossMinor - a.grossMinor)
    .slice(0, most)
    .map(({ reasons, ...row }) => ({ ...row, why: reasons.map((r) => r.why) }));
}
