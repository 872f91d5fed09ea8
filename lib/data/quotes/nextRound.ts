import { earliest } from "@/lib/db/due";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn, daysAfter, endOfDay } from "@/lib/domain/schedule/days";
import { mailTimeFrom, reminderDay } from "@/lib/domain/schedule/reminder";
import { letterChoice } from "../mail/letters";

/** Of more quotes than this, those sent longest ago are looked at; the others wait for the next morning. */
const MOST = 200;

/** When a quote runs out next, or is to be reminded of; null where none is out. */
export async function nextQuoteRound(shop: ShopHandle): Promise<Date | null> {
  const terms = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, remindAfterDays: true, remindBeforeDays: true },
  });
  const { zone } = terms;
  const { _min } = await shop.read.quote.aggregate({ where: { state: "sent" }, _min: { validUntil: true } });
  const runsOut = _min.validUntil === null ? null : endOfDay(_min.validUntil, zone);
  const [afterDays, beforeDays] = [terms.remindAfterDays ?? 0, terms.remindBeforeDays ?? 0];
  if (afterDays + beforeDays === 0 || !(await letterChoice(shop.read, "reminder")).on) return runsOut;
  const day = await firstReminderDay(shop, { zone, afterDays, beforeDays });
  if (day === null) return runsOut;
  const from = Math.max(shop.now.getTime(), endOfDay(daysAfter(day, -1), zone).getTime());
  return earliest([runsOut, new Date(mailTimeFrom(from, zone))]);
}

async function firstReminderDay(
  shop: ShopHandle,
  { zone, ...terms }: { zone: string; afterDays: number; beforeDays: number },
): Promise<string | null> {
  const today = dayIn(zone, shop.now);
  const rows = await shop.read.quote.findMany({
    where: {
      state: "sent",
      remindedAt: null,
      sentAt: { not: null },
      validUntil: { gte: today },
      customer: { email: { not: "" }, noLetters: false },
      questions: { none: { answeredAt: null } },
    },
    select: { sentAt: true, validUntil: true, callOn: true },
    orderBy: { sentAt: "asc" },
    take: MOST,
  });
  const days = rows.flatMap(({ sentAt, ...row }) => {
    const day = sentAt && reminderDay({ ...row, ...terms, sentOn: dayIn(zone, sentAt) });
    return day === null ? [] : [day];
  });
  if (rows.length === MOST) days.push(daysAfter(today, 1));
  return days.sort()[0] ?? null;
}
