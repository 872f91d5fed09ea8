import { rowsOf } from "@/lib/db/plainSql";
import type { ShopHandle } from "@/lib/db/shop";
import { movedMinor, settled } from "@/lib/domain/invoices/held";
import type { DocumentKind } from "@/lib/domain/invoices/printed";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { endOfDay } from "@/lib/domain/schedule/days";
import { fetched } from "../common/chunks";
import { seriesProblems } from "../invoices/invariants";
import { valueSql } from "./brought";

const REGISTER_KINDS: readonly DocumentKind[] = ["invoice", "creditNote", "receipt"];

/** Rows of a file that are read between other requests. */
const PAGE = 200;

const DOCUMENT = {
  id: true,
  kind: true,
  number: true,
  written: true,
  issuedOn: true,
  dueOn: true,
  netMinor: true,
  taxMinor: true,
  grossMinor: true,
  prepaidMinor: true,
  takenBack: true,
  customer: { select: { name: true } },
  credits: { select: { written: true } },
} as const;

export interface Series {
  readonly kind: DocumentKind;
  readonly count: number;
  readonly first: string;
  readonly last: string;
  /** Empty where the numbers follow each other without a gap. */
  readonly problems: readonly string[];
}

/** Every series of documents: from which number to which, and whether all between are there. */
export async function documentSeries(shop: ShopHandle): Promise<Series[]> {
  return Promise.all(
    REGISTER_KINDS.map(async (kind) => {
      const where = { kind, state: "issued" } as const;
      const select = { written: true } as const;
      const [count, first, last, problems] = await Promise.all([
        shop.read.invoice.count({ where }),
        shop.read.invoice.findFirst({ where, select, orderBy: { number: "asc" } }),
        shop.read.invoice.findFirst({ where, select, orderBy: { number: "desc" } }),
        seriesProblems(shop, kind),
      ]);
      return { kind, count, first: first?.written ?? "", last: last?.written ?? "", problems };
    }),
  );
}

export type RegisteredDocument = Awaited<ReturnType<typeof registeredDocuments>>["rows"][number];

/** Documents of one series issued in a range, by number, after a number. */
export async function registeredDocuments(
  shop: ShopHandle,
  kind: DocumentKind,
  { from, to }: LedgerRange,
  after: number,
  most = 50,
) {
  const rows = await shop.read.invoice.findMany({
    where: { kind, state: "issued", issuedOn: { gte: from, lte: to }, number: { gt: after } },
    select: DOCUMENT,
    orderBy: { number: "asc" },
    take: most + 1,
  });
  const page = rows.slice(0, most);
  return { rows: page, next: rows.length > most ? (page.at(-1)?.number ?? null) : null };
}

/** Every document issued in a range, series by series, each by number. */
export async function* everyDocument(
  shop: ShopHandle,
  range: LedgerRange,
): AsyncGenerator<RegisteredDocument> {
  for (const kind of REGISTER_KINDS)
    for (let after: number | null = 0; after !== null; ) {
      const page: Awaited<ReturnType<typeof registeredDocuments>> = await registeredDocuments(
        shop,
        kind,
        range,
        after,
        PAGE,
      );
      yield* page.rows;
      after = page.next;
    }
}

/** What the documents of a range come to, credit notes taken off. */
export async function documentSums(shop: ShopHandle, { from, to }: LedgerRange) {
  const { _sum, _count } = await shop.read.invoice.aggregate({
    where: { state: "issued", issuedOn: { gte: from, lte: to } },
    _sum: { netMinor: true, taxMinor: true, grossMinor: true },
    _count: { id: true },
  });
  return {
    count: _count.id,
    netMinor: _sum.netMinor ?? 0,
    taxMinor: _sum.taxMinor ?? 0,
    grossMinor: _sum.grossMinor ?? 0,
  };
}

export type RegisteredPayment = Awaited<ReturnType<typeof registeredPayments>>["rows"][number];

/** Rows of the payments dated in a range, as they were recorded, after a row. */
export async function registeredPayments(
  shop: ShopHandle,
  { from, to }: LedgerRange,
  after: number,
  most = 50,
) {
  const rows = await shop.read.payment.findMany({
    where: { paidOn: { gte: from, lte: to }, id: { gt: after } },
    select: {
      id: true,
      kind: true,
      method: true,
      amountMinor: true,
      roundingMinor: true,
      paidOn: true,
      reference: true,
      reversesId: true,
      at: true,
      saleId: true,
      invoiceId: true,
      jobId: true,
      sale: {
        select: { invoices: { select: { id: true, written: true }, orderBy: { id: "asc" }, take: 1 } },
      },
      job: { select: { number: true, customer: { select: { name: true } } } },
      invoice: { select: { written: true, customer: { select: { name: true } } } },
    },
    orderBy: { id: "asc" },
    take: most + 1,
  });
  const page = rows.slice(0, most).map(({ job, invoice, sale, invoiceId, ...row }) => ({
    ...row,
    // A counter sale opens at its first document.
    invoiceId: invoiceId ?? sale?.invoices[0]?.id ?? null,
    // A write-off is no money.
    movedMinor: row.kind === "writeOff" ? 0 : movedMinor(row),
    settlesMinor: settled(row),
    job: job?.number ?? "",
    document: invoice?.written ?? sale?.invoices[0]?.written ?? "",
    customer: invoice?.customer?.name ?? job?.customer.name ?? "",
  }));
  return { rows: page, next: rows.length > most ? (page.at(-1)?.id ?? null) : null };
}

/** Every row of the payments dated in a range. */
export async function* everyPayment(shop: ShopHandle, range: LedgerRange): AsyncGenerator<RegisteredPayment> {
  for (let after: number | null = 0; after !== null; ) {
    const page: Awaited<ReturnType<typeof registeredPayments>> = await registeredPayments(
      shop,
      range,
      after,
      PAGE,
    );
    yield* page.rows;
    after = page.next;
  }
}

/** What moved by each method in a range, in minor units: below zero where more went out. */
export async function paymentSums(shop: ShopHandle, { from, to }: LedgerRange) {
  const rows = await shop.read.payment.groupBy({
    by: ["method", "kind"],
    where: { paidOn: { gte: from, lte: to } },
    _sum: { amountMinor: true },
    orderBy: [{ method: "asc" }, { kind: "asc" }],
  });
  const sums = new Map<string, number>();
  for (const { method, kind, _sum } of rows) {
    if (kind === "writeOff") continue;
    const minor = movedMinor({ kind, amountMinor: _sum.amountMinor ?? 0 });
    sums.set(method, (sums.get(method) ?? 0) + minor);
  }
  return [...sums].map(([method, minor]) => ({ method, minor }));
}

export interface StockWorth {
  readonly partId: number;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  readonly valueMinor: number;
  /** Some of it came in without a cost, and counts as nothing. */
  readonly withoutCost: boolean;
}

/** So many moves are added up in one statement: it holds the event loop while it runs. */
const MOVES_AT_ONCE = 10_000;

/**
 * What lay in stock at the end of a day, part by part, by code, and what it was worth: the moves until then at the cost of each,
 * rounded move by move, as the journal books them.
 */
export async function stockWorth(shop: ShopHandle, day: string): Promise<StockWorth[]> {
  const parts = new Map<number, { quantityMilli: number; valueMinor: number; withoutCost: boolean }>();
  const [{ zone, currency }, last] = await Promise.all([
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true, currency: true } }),
    shop.read.move.findFirst({ select: { id: true }, orderBy: { id: "desc" } }),
  ]);
  const end = endOfDay(day, zone);
  for (let after = 0; after < (last?.id ?? 0); after += MOVES_AT_ONCE) {
    const rows = await rowsOf<"id" | "quantity" | "minor" | "costless">(
      shop.read,
      `SELECT m."partId" AS "id", CAST(SUM(m."quantityMilli") AS BIGINT) AS "quantity", CAST(SUM(${valueSql(currency)}) AS BIGINT) AS "minor",
  MAX(CASE WHEN m."unitCostE4" IS NULL THEN 1 ELSE 0 END) AS "costless"
FROM "Move" m WHERE m."id" > ? AND m."id" <= ? AND m."kind" <> 'betweenBins' AND m."at" < ? GROUP BY m."partId"`,
      after,
      after + MOVES_AT_ONCE,
      end,
    );
    for (const row of rows) {
      const part = parts.get(Number(row.id)) ?? { quantityMilli: 0, valueMinor: 0, withoutCost: false };
      part.quantityMilli += Number(row.quantity);
      part.valueMinor += Number(row.minor);
      part.withoutCost ||= Number(row.costless) === 1;
      parts.set(Number(row.id), part);
    }
  }
  const rows = await fetched([...parts.keys()], (ids) =>
    shop.read.part.findMany({
      where: { id: { in: ids } },
      select: { id: true, code: true, name: true, unit: true },
      orderBy: { id: "asc" },
    }),
  );
  return rows
    .flatMap(({ id, ...part }) => {
      const worth = parts.get(id);
      return worth && (worth.quantityMilli !== 0 || worth.valueMinor !== 0)
        ? [{ partId: id, ...part, ...worth }]
        : [];
    })
    .sort((a, b) => (a.code < b.code ? -1 : 1));
}
