import type { ShopHandle } from "@/lib/db/shop";
import { SHARES, type ShareKind } from "@/lib/domain/invoices/shares";
import { type DayRange, monthsIn } from "@/lib/domain/schedule/ranges";

export interface Revenue {
  readonly netMinor: number;
  readonly kinds: readonly { readonly kind: ShareKind; readonly netMinor: number }[];
  readonly months: readonly { readonly month: string; readonly netMinor: number; readonly minutes: number }[];
  /** Minutes billed as labour by the hour. */
  readonly minutes: number;
}

/** A day's documents of one kind, added up. */
interface DaySum {
  readonly issuedOn: string;
  readonly kind: string;
  readonly _sum: { readonly netMinor: number | null; readonly minutes: number | null };
}

/** Net revenue of documents issued in a range, credit notes taken off, by kind and month. */
export async function revenueIn(shop: ShopHandle, range: DayRange): Promise<Revenue> {
  const rows = await shop.read.documentShare.groupBy({
    by: ["issuedOn", "kind"],
    where: { issuedOn: { gte: range.from, lte: range.to } },
    _sum: { netMinor: true, minutes: true },
    orderBy: [{ issuedOn: "asc" }, { kind: "asc" }],
  });
  return addedUp(rows, range);
}

/** The sums of days and kinds as a page shows them; every month and kind stands, also with nothing. */
function addedUp(rows: readonly DaySum[], range: DayRange): Revenue {
  const sum = (some: readonly DaySum[], of: "netMinor" | "minutes") =>
    some.reduce((total, row) => total + (row._sum[of] ?? 0), 0);
  const byKind = Map.groupBy(rows, (row) => row.kind);
  const byMonth = Map.groupBy(rows, (row) => row.issuedOn.slice(0, 7));
  return {
    netMinor: sum(rows, "netMinor"),
    minutes: sum(rows, "minutes"),
    kinds: SHARES.map((kind) => ({ kind, netMinor: sum(byKind.get(kind) ?? [], "netMinor") })),
    months: monthsIn(range).map((month) => {
      const own = byMonth.get(month) ?? [];
      return { month, netMinor: sum(own, "netMinor"), minutes: sum(own, "minutes") };
    }),
  };
}

const PAGE = 100;

/** Which documents stand behind a figure. */
export interface Behind {
  readonly range: DayRange;
  readonly kind?: ShareKind | undefined;
}

const whereOf = ({ range, kind }: Behind) => ({
  issuedOn: { gte: range.from, lte: range.to },
  ...(kind === undefined ? {} : { kind }),
});

/** The documents behind a figure a page at a time, the oldest first, and what all of them add up to. `after` is the last one's id. */
export async function revenueDocuments(shop: ShopHandle, behind: Behind, after = 0) {
  const [whole, rows] = await Promise.all([
    shop.read.documentShare.aggregate({ where: whereOf(behind), _sum: { netMinor: true, minutes: true } }),
    documentsAfter(shop, behind, after),
  ]);
  return {
    rows: rows.slice(0, PAGE),
    next: rows.length > PAGE ? (rows[PAGE - 1]?.id ?? null) : null,
    netMinor: whole._sum.netMinor ?? 0,
    minutes: whole._sum.minutes ?? 0,
  };
}

async function documentsAfter(shop: ShopHandle, behind: Behind, after: number) {
  const found = await shop.read.documentShare.groupBy({
    by: ["invoiceId"],
    where: { ...whereOf(behind), invoiceId: { gt: after } },
    _sum: { netMinor: true, minutes: true },
    orderBy: { invoiceId: "asc" },
    take: PAGE + 1,
  });
  const invoices = await shop.read.invoice.findMany({
    where: { id: { in: found.map((row) => row.invoiceId) } },
    select: {
      id: true,
      kind: true,
      written: true,
      issuedOn: true,
      jobId: true,
      saleId: true,
      customer: { select: { name: true } },
    },
    orderBy: { id: "asc" },
    take: PAGE + 1,
  });
  const sums = new Map(found.map((row) => [row.invoiceId, row._sum]));
  return invoices.map(({ customer, ...invoice }) => ({
    ...invoice,
    customer: customer?.name ?? "",
    netMinor: sums.get(invoice.id)?.netMinor ?? 0,
    minutes: sums.get(invoice.id)?.minutes ?? 0,
  }));
}

export type RevenueDocument = Awaited<ReturnType<typeof documentsAfter>>[number];

/** All documents behind a figure, in pieces: for a file. */
export async function* eachRevenueDocument(
  shop: ShopHandle,
  behind: Behind,
): AsyncGenerator<RevenueDocument, void, undefined> {
  for (let after = 0; ; ) {
    const rows = await documentsAfter(shop, behind, after);
    yield* rows.slice(0, PAGE);
    const last = rows[PAGE - 1];
    if (rows.length <= PAGE || !last) return;
    after = last.id;
  }
}
