import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn, daysAfter, endOfDay } from "@/lib/domain/schedule/days";
import { minuteOfDay } from "@/lib/domain/schedule/localTime";
import { isMailTime, isReminderDue } from "@/lib/domain/schedule/reminder";
import { storedQuote } from "../documents/quote";
import { letterChoice } from "../mail/letters";
import { mailReminder } from "./remind";
import { answerFindingIn } from "./write";

export interface QuoteRound {
  readonly expired: number;
  readonly reminded: number;
}

/** So much in one round; what is left waits for the next. */
const MOST = 50;

/**
 * What quotes that are out need without anyone asking: those whose last day is over expire, and between 8 and 18 o'clock those
 * due are reminded of once. Safe to repeat and to run in several processes at once: each change is guarded in its write.
 */
export async function quoteRound(shop: ShopHandle, origin: string): Promise<QuoteRound> {
  const terms = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, remindAfterDays: true, remindBeforeDays: true },
  });
  const today = dayIn(terms.zone, shop.now);
  const expired = await expireQuotes(shop, today);
  const wanted = (terms.remindAfterDays ?? 0) > 0 || (terms.remindBeforeDays ?? 0) > 0;
  if (!wanted || !(await letterChoice(shop.read, "reminder")).on) return { expired, reminded: 0 };
  if (!isMailTime(minuteOfDay(shop.now.getTime(), terms.zone))) return { expired, reminded: 0 };
  return { expired, reminded: await remindDue(shop, { ...terms, today, origin }) };
}

async function expireQuotes(shop: ShopHandle, today: string): Promise<number> {
  const over = await shop.read.quote.findMany({
    where: { state: "sent", validUntil: { lt: today } },
    select: { id: true, number: true, version: true, findingId: true },
    orderBy: { id: "asc" },
    take: MOST,
  });
  let expired = 0;
  for (const { id, number, version, findingId } of over)
    expired += await shop.write(async (tx) => {
      const { count } = await tx.quote.updateMany({
        where: { id, version, state: "sent", validUntil: { lt: today } },
        data: { state: "expired", version: { increment: 1 } },
      });
      if (count !== 1) return 0;
      await answerFindingIn(tx, findingId, "open");
      await audit(tx, shop, "let run out", "quote", id, { number });
      return 1;
    });
  return expired;
}

interface Terms {
  readonly zone: string;
  readonly remindAfterDays: number | null;
  readonly remindBeforeDays: number | null;
  readonly today: string;
  readonly origin: string;
}

async function remindDue(shop: ShopHandle, terms: Terms): Promise<number> {
  const { zone, today } = terms;
  const [after, before] = [terms.remindAfterDays ?? 0, terms.remindBeforeDays ?? 0];
  /** What was sent before this was sent at least so many days of the shop ago. */
  const sentBy = (days: number) => endOfDay(daysAfter(today, -days), zone);
  const rows = await shop.read.quote.findMany({
    where: {
      state: "sent",
      remindedAt: null,
      validUntil: { gte: today },
      customer: { email: { not: "" }, noLetters: false },
      questions: { none: { answeredAt: null } },
      AND: [{ OR: [{ callOn: null }, { callOn: { lte: today } }] }],
      // As isReminderDue says it: a row that it would refuse takes the place of one that is due.
      sentAt: { lt: sentBy(1) },
      OR: [
        ...(after > 0 ? [{ sentAt: { lt: sentBy(after) } }] : []),
        ...(before > 0 ? [{ validUntil: { lte: daysAfter(today, before) } }] : []),
      ],
    },
    select: { id: true, sentAt: true, validUntil: true, callOn: true },
    orderBy: { id: "asc" },
    take: MOST,
  });
  const due = rows.filter(
    (row) =>
      row.sentAt !== null &&
      isReminderDue({
        ...row,
        today,
        sentOn: dayIn(zone, row.sentAt),
        afterDays: after,
        beforeDays: before,
        openQuestions: 0,
      }),
  );
  let reminded = 0;
  for (const { id } of due) reminded += await remindOnce(shop, id, terms);
  return reminded;
}

/** The guard is in the write: of two rounds at once, one finds it reminded of already and sends nothing. */
async function remindOnce(shop: ShopHandle, id: number, { zone, today, origin }: Terms): Promise<number> {
  return shop.write(async (tx) => {
    const { count } = await tx.quote.updateMany({
      where: { id, state: "sent", remindedAt: null, validUntil: { gte: today } },
      data: { remindedAt: shop.now, version: { increment: 1 } },
    });
    if (count !== 1) return 0;
    const quote = await tx.quote.findUniqueOrThrow({
      where: { id },
      select: {
        number: true,
        customer: { select: { email: true, noLetters: true } },
        revisions: { select: { id: true, frozen: true }, orderBy: { number: "desc" }, take: 1 },
      },
    });
    const [revision] = quote.revisions;
    if (!revision) throw new Error(`Quote ${quote.number} has no revision.`);
    await mailReminder(tx, shop, {
      quoteId: id,
      to: quote.customer,
      revisionId: revision.id,
      frozen: storedQuote(revision.frozen),
      zone,
      origin,
      words: "",
    });
    await audit(tx, shop, "reminded of", "quote", id, { number: quote.number });
    return 1;
  });
}
