import type { ShopHandle } from "@/lib/db/shop";
import { amountOf } from "@/lib/domain/money/scale";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { type DayRange, daysIn } from "@/lib/domain/schedule/ranges";

const YEAR_DAYS = 365;
const YEAR_MS = YEAR_DAYS * 86_400_000;
const PAGE = 1_000;
/** So many parts are looked through, by their ids. */
const MOST = 50_000;

export interface StockFigure {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly onHandMilli: number;
  readonly valueMinor: number;
  /** Used or sold in the range, less what came back. */
  readonly usedMinor: number;
  /** On hand, and for twelve months nothing came in or went out. */
  readonly dead: boolean;
}

/** Stock now and its use in a range, at what parts cost today: each part that is on hand or was used. Turn is uses of a year against the value now. */
export async function stockIn(shop: ShopHandle, range: DayRange, zone: string) {
  const { currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true },
  });
  const between = {
    gte: new Date(instantOf(range.from, "00:00", zone)),
    lt: new Date(instantOf(range.to, "24:00", zone)),
  };
  const [used, moved] = await Promise.all([
    shop.read.move.groupBy({
      by: ["partId"],
      where: { at: between, kind: { in: ["use", "returnToStock"] } },
      _sum: { quantityMilli: true },
      orderBy: { partId: "asc" },
    }),
    shop.read.move.groupBy({
      by: ["partId"],
      where: { at: { gte: new Date(shop.now.getTime() - YEAR_MS) } },
      orderBy: { partId: "asc" },
    }),
  ]);
  const usedOf = new Map(used.map((row) => [row.partId, row._sum.quantityMilli ?? 0]));
  const alive = new Set(moved.map((row) => row.partId));
  const rows: StockFigure[] = [];
  for await (const { averageE4, costE4, ...part } of eachPart(shop)) {
    const worth = (milli: number) => amountOf(averageE4 ?? costE4 ?? 0, milli, currency);
    const usedMilli = 0 - (usedOf.get(part.id) ?? 0);
    if (part.onHandMilli === 0 && usedMilli === 0) continue;
    rows.push({
      ...part,
      valueMinor: worth(part.onHandMilli),
      usedMinor: worth(usedMilli),
      dead: part.onHandMilli > 0 && !alive.has(part.id),
    });
  }
  const sum = (some: readonly StockFigure[], of: "valueMinor" | "usedMinor") =>
    some.reduce((total, row) => total + row[of], 0);
  const [valueMinor, usedMinor] = [sum(rows, "valueMinor"), sum(rows, "usedMinor")];
  return {
    rows,
    valueMinor,
    usedMinor,
    deadMinor: sum(
      rows.filter((row) => row.dead),
      "valueMinor",
    ),
    turn: valueMinor > 0 ? (usedMinor * YEAR_DAYS) / daysIn(range) / valueMinor : null,
  };
}

async function* eachPart(shop: ShopHandle) {
  for (let after = 0, read = 0; read < MOST; ) {
    const page = await shop.read.part.findMany({
      where: { id: { gt: after } },
      select: { id: true, code: true, name: true, onHandMilli: true, averageE4: true, costE4: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    yield* page;
    const last = page.at(-1);
    if (!last || page.length < PAGE) return;
    after = last.id;
    read += page.length;
  }
}
