import type { ShopHandle } from "@/lib/db/shop";
import type { StockCause, StockMoved } from "@/lib/domain/ledger/events";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { amountOf } from "@/lib/domain/money/scale";
import { dayIn, endOfDay } from "@/lib/domain/schedule/days";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { fetched } from "../common/chunks";

const PAGE = 1000;

/** Why a move of a kind is booked. */
export const CAUSES: Readonly<Record<string, StockCause>> = {
  opening: "opening",
  receipt: "received",
  returnToSupplier: "received",
  use: "used",
  returnToStock: "used",
  count: "difference",
  scrap: "difference",
  split: "difference",
};

/** The ledger's moves in a range of days, page by page, each with its local day and its value at cost in minor units. */
async function* valuedMoves(shop: ShopHandle, { from, to }: LedgerRange) {
  const { zone, currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, currency: true },
  });
  const at = { gte: new Date(instantOf(from, "00:00", zone)), lt: endOfDay(to, zone) };
  for (let after = 0; ; ) {
    const rows = await shop.read.move.findMany({
      where: { id: { gt: after }, at, kind: { not: "betweenBins" } },
      select: {
        id: true,
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
    for (const { at: moved, ...row } of rows)
      yield {
        ...row,
        day: dayIn(zone, moved),
        // What has no cost yet is worth nothing here.
        valueMinor: amountOf(row.unitCostE4 ?? 0, row.quantityMilli, currency),
      };
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return;
    after = last.id;
  }
}

/** The stock's moves of a range as the journal has them: of each day one event for each job, sale or other cause. */
export async function stockIn(shop: ShopHandle, days: LedgerRange): Promise<StockMoved[]> {
  const found = new Map<string, StockMoved & { saleId: number | null }>();
  for await (const { id, day, kind, jobId, saleId, job, valueMinor } of valuedMoves(shop, days)) {
    const cause = CAUSES[kind];
    if (!cause) throw new Error(`Move ${id} is of kind ${kind}, which has no cause.`);
    const key = `${day} ${cause} ${jobId} ${saleId}`;
    const source = { noun: jobId === null ? "stock" : "job", id: jobId ?? 0 } as const;
    const about = jobId === null ? "stock" : `job ${job?.number ?? ""}`;
    const first = {
      is: "stock",
      id,
      day,
      source,
      customer: null,
      cause,
      about,
      valueMinor: 0,
      saleId,
    } as const;
    const before = found.get(key) ?? first;
    found.set(key, { ...before, valueMinor: before.valueMinor + valueMinor });
  }
  const documents = await firstDocuments(
    shop,
    [...found.values()].flatMap((event) => event.saleId ?? []),
  );
  return [...found.values()].map(({ saleId, ...event }) => ({ ...event, ...documents.get(saleId ?? 0) }));
}

/** The first document of each sale: where its stock opens. */
async function firstDocuments(shop: ShopHandle, saleIds: readonly number[]) {
  const rows = await fetched([...new Set(saleIds)], (ids) =>
    shop.read.invoice.findMany({
      where: { saleId: { in: ids } },
      select: { id: true, saleId: true, written: true },
      orderBy: { id: "desc" },
    }),
  );
  return new Map(
    rows.map(({ id, saleId, written }) => [
      saleId ?? 0,
      { source: { noun: "invoice", id } as const, about: `document ${written}` },
    ]),
  );
}
