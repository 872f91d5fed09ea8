import type { ShopHandle } from "@/lib/db/shop";
import type { StockCause, StockMoved } from "@/lib/domain/ledger/events";
import { amountOf } from "@/lib/domain/money/scale";
import { dayIn, endOfDay } from "@/lib/domain/schedule/days";

const PAGE = 1000;

const CAUSES: Readonly<Record<string, StockCause>> = {
  opening: "opening",
  receipt: "received",
  returnToSupplier: "received",
  use: "used",
  returnToStock: "used",
  count: "difference",
  scrap: "difference",
  split: "difference",
};

/** The ledger's moves up to a day, page by page, each with its local day and its value at cost in minor units. */
export async function* valuedMoves(shop: ShopHandle, to: string) {
  const { zone, currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, currency: true },
  });
  const end = endOfDay(to, zone);
  for (let after = 0; ; ) {
    const rows = await shop.read.move.findMany({
      where: { id: { gt: after }, at: { lt: end }, kind: { not: "betweenBins" } },
      select: {
        id: true,
        partId: true,
        kind: true,
        quantityMilli: true,
        unitCostE4: true,
        at: true,
        jobId: true,
        saleId: true,
        job: { select: { number: true } },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { at, ...row } of rows)
      yield {
        ...row,
        day: dayIn(zone, at),
        // What has no cost yet is worth nothing here.
        valueMinor: amountOf(row.unitCostE4 ?? 0, row.quantityMilli, currency),
      };
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return;
    after = last.id;
  }
}

/** The stock's moves up to a day as the journal has them: of each day one event for each job, sale or other cause. */
export async function stockEvents(shop: ShopHandle, to: string): Promise<StockMoved[]> {
  const found = new Map<string, StockMoved>();
  for await (const move of valuedMoves(shop, to)) {
    const cause = CAUSES[move.kind];
    if (!cause) throw new Error(`Move ${move.id} is of kind ${move.kind}, which has no cause.`);
    const of =
      move.jobId !== null
        ? ({ noun: "job", id: move.jobId } as const)
        : move.saleId !== null
          ? ({ noun: "sale", id: move.saleId } as const)
          : ({ noun: "stock", id: 0 } as const);
    const about =
      of.noun === "job" ? `job ${move.job?.number ?? ""}` : of.noun === "sale" ? "counter sale" : "stock";
    const key = `${move.day} ${cause} ${of.noun} ${of.id}`;
    const before = found.get(key);
    const first: StockMoved = {
      is: "stock",
      id: move.id,
      day: move.day,
      customer: null,
      cause,
      about,
      of,
      valueMinor: 0,
    };
    found.set(key, { ...(before ?? first), valueMinor: (before?.valueMinor ?? 0) + move.valueMinor });
  }
  return [...found.values()];
}
