import type { ShopHandle } from "@/lib/db/shop";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { type DatedMove, stockAt, turnsAYear, usedE4 } from "@/lib/domain/stock/figures";
import { zoneIn } from "../common/zone";

const YEAR = 365;
/** A part is dead when it lay this long without a use; one that came in later has had no chance yet (judgement). */
const DEAD_DAYS = 365;
const PAGE = 5000;

/** Every move into or out of the shop's stock, oldest first, some thousands at a time. */
async function allMoves(shop: ShopHandle): Promise<DatedMove[]> {
  const moves: DatedMove[] = [];
  for (let last = 0; ; ) {
    const rows = await shop.read.move.findMany({
      where: { id: { gt: last }, kind: { not: "betweenBins" } },
      select: { id: true, partId: true, kind: true, at: true, quantityMilli: true, unitCostE4: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { id: _, at, ...row } of rows) moves.push({ ...row, at: at.getTime() });
    last = rows.at(-1)?.id ?? last;
    if (rows.length < PAGE) return moves;
  }
}

/** What stock was worth at the end of a day, how it turns, what lies dead, and how often counts agreed. */
export async function stockFigures(shop: ShopHandle, day: string) {
  const zone = await zoneIn(shop.read);
  const end = Math.min(instantOf(day, "24:00", zone), shop.now.getTime());
  const from = instantOf(dayAfter(day, -YEAR), "24:00", zone);
  const [moves, parts, accuracy] = await Promise.all([
    allMoves(shop),
    shop.read.part.findMany({
      select: { id: true, code: true, name: true, unit: true, bin: true },
      orderBy: { code: "asc" },
    }),
    countAccuracy(shop, new Date(from), new Date(end)),
  ]);
  const stock = stockAt(moves, end);
  const monthEnds = monthEndsBefore(day, 12).map((each) => ({
    day: each,
    valueE4: stockAt(moves, instantOf(each, "24:00", zone)).valueE4,
  }));
  const first = moves.reduce((least, move) => Math.min(least, move.at), end);
  const days = Math.max(1, Math.round((end - Math.max(from, first)) / 86_400_000));
  const held = [
    ...monthEnds.filter((month) => month.valueE4 > 0).map((month) => month.valueE4),
    stock.valueE4,
  ];
  const averageE4 = held.reduce((sum, value) => sum + value, 0) / held.length;
  const used = usedE4(moves, from, end);
  return {
    day,
    valueE4: stock.valueE4,
    withoutCost: stock.withoutCost,
    monthEnds,
    usedE4: used,
    averageE4,
    days,
    turns: turnsAYear(used, averageE4, days),
    dead: deadOf(moves, stock.parts, end).flatMap(({ partId, ...dead }) => {
      const part = parts.find((each) => each.id === partId);
      return part ? [{ ...part, ...dead }] : [];
    }),
    accuracy,
  };
}

export type StockFigures = Awaited<ReturnType<typeof stockFigures>>;

function deadOf(
  moves: readonly DatedMove[],
  parts: ReadonlyMap<number, { onHandMilli: number; valueE4: number }>,
  end: number,
) {
  const since = end - DEAD_DAYS * 86_400_000;
  const lastUse = new Map<number, number>();
  const first = new Map<number, number>();
  for (const move of moves) {
    if (move.at > end) continue;
    if (move.kind === "use") lastUse.set(move.partId, Math.max(move.at, lastUse.get(move.partId) ?? 0));
    first.set(move.partId, Math.min(move.at, first.get(move.partId) ?? move.at));
  }
  return [...parts]
    .filter(
      ([id, part]) =>
        part.onHandMilli > 0 && (lastUse.get(id) ?? 0) < since && (first.get(id) ?? end) < since,
    )
    .map(([partId, part]) => ({ partId, ...part, lastUsedAt: lastUse.get(partId) ?? null }))
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
