import type { ShopHandle } from "@/lib/db/shop";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { type StockHistory, type StockWorth, stockHistory, turnsAYear } from "@/lib/domain/stock/figures";
import { zoneIn } from "../common/zone";

const YEAR = 365;
/** A part is dead when it lay this long without a use; one that came in later has had no chance yet (judgement). */
const DEAD_DAYS = 365;
const PAGE = 5000;

/** Every move into or out of the shop's stock, some thousands at a time, none of them kept. */
async function historyOf(
  shop: ShopHandle,
  instants: readonly number[],
  usedFrom: number,
): Promise<StockHistory> {
  const sums = stockHistory(instants, usedFrom);
  for (let last = 0; ; ) {
    const rows = await shop.read.move.findMany({
      where: { id: { gt: last }, kind: { not: "betweenBins" } },
      select: { id: true, partId: true, kind: true, at: true, quantityMilli: true, unitCostE4: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const row of rows) sums.add({ ...row, at: row.at.getTime() });
    last = rows.at(-1)?.id ?? last;
    if (rows.length < PAGE) return sums.history();
  }
}

/** What stock was worth at the end of a day, how it turns, what lies dead, and how often counts agreed. */
export async function stockFigures(shop: ShopHandle, day: string) {
  const zone = await zoneIn(shop.read);
  const end = Math.min(instantOf(day, "24:00", zone), shop.now.getTime());
  const from = instantOf(dayAfter(day, -YEAR), "24:00", zone);
  const ends = monthEndsBefore(day, 12).map((each) => ({ day: each, at: instantOf(each, "24:00", zone) }));
  const [history, parts, accuracy] = await Promise.all([
    historyOf(shop, [...ends.map(({ at }) => Math.min(at, end)), end], from),
    shop.read.part.findMany({
      select: { id: true, code: true, name: true, unit: true, bin: true },
      orderBy: { code: "asc" },
    }),
    countAccuracy(shop, new Date(from), new Date(end)),
  ]);
  const worthAt = (at: number) => history.worth.get(Math.min(at, end)) as StockWorth;
  const stock = worthAt(end);
  const monthEnds = ends.map(({ day: each, at }) => ({ day: each, valueE4: worthAt(at).valueE4 }));
  const first = Math.min(history.firstAt ?? end, end);
  const days = Math.max(1, Math.round((end - Math.max(from, first)) / 86_400_000));
  const held = [
    ...monthEnds.filter((month) => month.valueE4 > 0).map((month) => month.valueE4),
    stock.valueE4,
  ];
  const averageE4 = held.reduce((sum, value) => sum + value, 0) / held.length;
  const { usedE4 } = history;
  return {
    day,
    valueE4: stock.valueE4,
    withoutCost: stock.withoutCost,
    monthEnds,
    usedE4,
    averageE4,
    days,
    turns: turnsAYear(usedE4, averageE4, days),
    dead: deadOf(parts, history, end),
    accuracy,
  };
}

export type StockFigures = Awaited<ReturnType<typeof stockFigures>>;

/** Parts that lie there and have not been used for long, those that are worth most first. */
function deadOf<P extends { readonly id: number }>(
  parts: readonly P[],
  { parts: held }: StockHistory,
  end: number,
) {
  const since = end - DEAD_DAYS * 86_400_000;
  return parts
    .flatMap((part) => {
      const stock = held.get(part.id);
      if (!stock || stock.onHandMilli <= 0) return [];
      const { firstAt, lastUsedAt, onHandMilli, valueE4 } = stock;
      return (lastUsedAt ?? 0) < since && firstAt < since
        ? [{ ...part, onHandMilli, valueE4, lastUsedAt }]
        : [];
    })
    .sort((a, b) => b.valueE4 - a.valueE4);
}

/** The last days of the months before a day's, the oldest first. */
export function monthEndsBefore(day: string, count: number): string[] {
  const [year, month] = day.split("-").map(Number) as [number, number];
  return Array.from({ length: count }, (_, back) => {
    const index = year * 12 + (month - 1) - (count - 1 - back);
    const first = `${Math.floor(index / 12)}-${String((index % 12) + 1).padStart(2, "0")}-01`;
    return dayAfter(first, -1);
  });
}

/** Of the parts counted in a period, how many agreed with the ledger. */
async function countAccuracy(shop: ShopHandle, from: Date, to: Date) {
  const lines = await shop.read.countLine.findMany({
    where: {
      countedMilli: { not: null },
      leftOut: false,
      sheet: { state: "approved", approvedAt: { gt: from, lte: to } },
    },
    select: { countedMilli: true, seenMilli: true },
    orderBy: { id: "asc" },
  });
  const agreed = lines.filter((line) => line.countedMilli === line.seenMilli).length;
  return { counted: lines.length, agreed };
}

/** What was used of a part month by month, returns taken off, the last twelve months with the one that runs. */
export async function usagePerMonth(shop: ShopHandle, partId: number) {
  const zone = await zoneIn(shop.read);
  const today = dayOf(shop.now.getTime(), zone);
  const months = monthEndsBefore(today, 12)
    .slice(1)
    .map((day) => day.slice(0, 7))
    .concat(today.slice(0, 7));
  const since = new Date(instantOf(`${months[0]}-01`, "00:00", zone));
  const moves = await shop.read.move.findMany({
    where: { partId, kind: { in: ["use", "returnToStock"] }, at: { gte: since } },
    select: { at: true, quantityMilli: true },
    orderBy: { id: "asc" },
  });
  const used = new Map(months.map((month) => [month, 0]));
  for (const move of moves) {
    const month = dayOf(move.at.getTime(), zone).slice(0, 7);
    used.set(month, (used.get(month) ?? 0) - move.quantityMilli);
  }
  return months.map((month) => ({ month, usedMilli: used.get(month) ?? 0 }));
}
