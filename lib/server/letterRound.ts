import { dayBeforeRound } from "@/lib/data/bookings/dayBefore";
import { howRunsRound } from "@/lib/data/followUps/howRuns";
import { paymentRound } from "@/lib/data/invoices/paymentReminder";
import type { ShopHandle } from "@/lib/db/shop";
import { minuteOfDay } from "@/lib/domain/schedule/localTime";
import { isMailTime } from "@/lib/domain/schedule/reminder";

export interface LetterRound {
  readonly dayBefore: number;
  readonly payments: number;
  readonly howRuns: number;
}

/** True where the shop has switched on a letter that nobody writes by hand. */
export async function wantsLetters({ read }: ShopHandle): Promise<boolean> {
  const chosen = await read.letter.findFirst({
    where: {
      on: true,
      OR: [{ kind: { in: ["dayBefore", "howRuns"] } }, { kind: "paymentReminder", days: { not: null } }],
    },
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
    payments: await paymentRound(shop, origin, zone),
    howRuns: await howRunsRound(shop, origin),
  };
}
