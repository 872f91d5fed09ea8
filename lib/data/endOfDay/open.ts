import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { openDays } from "@/lib/domain/endOfDay/days";
import { denominationsOf } from "@/lib/domain/endOfDay/denominations";
import { expectedCash } from "@/lib/domain/endOfDay/drawer";
import { netOf, takingsOf } from "@/lib/domain/endOfDay/takings";
import { dayIn } from "@/lib/domain/schedule/days";
import { lastEnd } from "./last";
import { moneyOf, movesOf, seenOf } from "./rows";

/** So many days are looked for that were never closed. */
const MOST_DAYS = 120;
const MOVES_MONEY = ["cash", "card", "transfer"];

/** Days to close, oldest first, with the last one that was closed. */
async function openDaysIn(db: Pick<ShopTx, "endOfDay" | "payment" | "drawerMove">, today: string) {
  const last = await lastEnd(db);
  if (!last) return { last, ...openDays(null, [], today) };
  const since = { gt: last.day, lte: today };
  const [paid, moved] = await Promise.all([
    db.payment.groupBy({
      by: ["paidOn"],
      where: { paidOn: since, method: { in: MOVES_MONEY } },
      orderBy: { paidOn: "asc" },
      take: MOST_DAYS,
    }),
    db.drawerMove.groupBy({
      by: ["day"],
      where: { day: since },
      orderBy: { day: "asc" },
      take: MOST_DAYS,
    }),
  ]);
  const days = [...paid.map((row) => row.paidOn), ...moved.map((row) => row.day)];
  return { last, ...openDays(last.day, days, today) };
}

/** Days before today that a shop which closes its days has not closed; none where it closes none. */
export async function daysNotClosed(shop: ShopHandle, today: string): Promise<readonly string[]> {
  return (await openDaysIn(shop.read, today)).days.filter((day) => day < today);
}

/**
 * A day as it is counted: the oldest that is open, or another one that was asked for, and then all days before it with it. Null where
 * today is closed already, or that day is no open one.
 */
export async function getOpenDay(shop: ShopHandle, wanted?: string) {
  const { currency, locale, zone } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true, locale: true, zone: true },
  });
  const today = dayIn(zone, shop.now);
  const { last, days, fromDay } = await openDaysIn(shop.read, today);
  const day = wanted === undefined ? days[0] : days.find((one) => one === wanted);
  if (day === undefined) return null;
  const span = { fromDay: fromDay ?? day, day };
  const money = await moneyOf(shop.read, span);
  const moves = await movesOf(shop.read, span);
  const takings = takingsOf(money);
  return {
    ...span,
    today,
    days,
    seen: seenOf(span, money, moves),
    /** Null where no day was closed yet: then the person who counts says what the drawer began with. */
    floatMinor: last?.leftMinor ?? null,
    money,
    moves: moves.map(({ personName, ...move }) => ({ ...move, by: personName })),
    takings,
    /** What should lie there but for the float, where that is not known. */
    expectedMinor: expectedCash(last?.leftMinor ?? 0, netOf(takings, "cash"), moves),
    cardMinor: netOf(takings, "card"),
    denominations: denominationsOf(currency),
    currency,
    locale,
  };
}

export type OpenDay = NonNullable<Awaited<ReturnType<typeof getOpenDay>>>;
