import { dayBeforeRound, nextDayBefore } from "@/lib/data/bookings/dayBefore";
import { nextReminderRound, reminderRound, wantsReminders } from "@/lib/data/chasing/round";
import { howRunsRound, nextHowRuns } from "@/lib/data/followUps/howRuns";
import { earliest } from "@/lib/db/due";
import type { ShopHandle } from "@/lib/db/shop";
import { minuteOfDay } from "@/lib/domain/schedule/localTime";
import { isMailTime, mailTimeFrom } from "@/lib/domain/schedule/reminder";

export interface LetterRound {
  readonly dayBefore: number;
  readonly payments: number;
  readonly howRuns: number;
}

/** True where the shop has switched on a letter that nobody writes by hand. */
export async function wantsLetters(shop: ShopHandle): Promise<boolean> {
  if (await wantsReminders(shop)) return true;
  const chosen = await shop.read.letter.findFirst({
    where: { on: true, kind: { in: ["dayBefore", "howRuns"] } },
    select: { kind: true },
    orderBy: { kind: "asc" },
  });
  return chosen !== null;
}

/** The letters that a shop lets the rounds write, between 8 and 18 o'clock on its clock. */
export async function letterRound(shop: ShopHandle, origin: string): Promise<LetterRound> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  if (!isMailTime(minuteOfDay(shop.now.getTime(), zone))) return { dayBefore: 0, payments: 0, howRuns: 0 };
  return {
    dayBefore: await dayBeforeRound(shop, zone),
    payments: await reminderRound(shop, origin),
    howRuns: await howRunsRound(shop, origin),
  };
}

/** When one of these letters may be due next; null for never. */
export async function nextLetters(shop: ShopHandle, done: LetterRound | null): Promise<Date | null> {
  if (!done) return null;
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const morning = mailTimeFrom(shop.now.getTime(), zone);
  if (morning > shop.now.getTime()) return new Date(morning);
  return earliest([
    await nextDayBefore(shop, zone, done.dayBefore),
    await nextReminderRound(shop, zone, done.payments),
    await nextHowRuns(shop, zone, done.howRuns),
  ]);
}
