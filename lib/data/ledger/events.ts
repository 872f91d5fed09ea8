import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { inTurns } from "@/lib/db/giveWay";
import type { ShopHandle } from "@/lib/db/shop";
import {
  type DocumentIssued,
  inOrder,
  type LedgerEvent,
  type MoneyMoved,
  type Position,
} from "@/lib/domain/ledger/events";
import { netsOf } from "@/lib/domain/ledger/nets";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { fetched } from "../common/chunks";
import { storedInvoice } from "../documents/invoice";
import { drawerIn } from "./drawer";
import { stockIn } from "./stock";

/** Rows that are read between other requests. */
const PAGE = 500;
/** Frozen documents are long, about 3 kB each: a hundred take some 15 ms to read. */
const DOCUMENTS = 100;
/** Of so many positions at once it is asked what happened to them before: few of them have any such row. */
const POSITIONS = 300;

const NAMED = { select: { id: true, name: true } } as const;
/** Who a counter sale was invoiced to in the end: all of its documents and money are theirs. */
const SOLD_TO = {
  select: { customer: NAMED },
  where: { customerId: { not: null } },
  orderBy: { id: "desc" },
  take: 1,
} as const;
/** The document that a row of money is about. */
const OF = { id: true, written: true, customer: NAMED } as const;

export interface EventsAsked extends LedgerRange {
  /** From this day on documents say what they charge by kind and tax; of earlier ones the totals do. */
  readonly detailFrom: string;
  readonly stockToo: boolean;
}

/** Everything that happened in a range of days, in the order it is posted. */
export async function* ledgerEvents(shop: ShopHandle, asked: EventsAsked): AsyncGenerator<LedgerEvent> {
  yield* detailedEvents(shop, await eventsIn(shop, asked), asked.detailFrom);
}

/**
 * The same, and first what happened before the range to the invoices and sales that something happens to in it: a poster that is given all
 * of these knows where each stood. `before` tells those apart.
 */
export async function* eventsWithBefore(
  shop: ShopHandle,
  asked: EventsAsked,
): AsyncGenerator<{ readonly event: LedgerEvent; readonly before: boolean }> {
  const events = await eventsIn(shop, asked);
  const earlier = await before(shop, events, asked.from);
  for (const event of earlier) yield { event, before: true };
  for await (const event of detailedEvents(shop, events, asked.detailFrom)) yield { event, before: false };
}

async function eventsIn(shop: ShopHandle, { from, to, stockToo }: EventsAsked): Promise<LedgerEvent[]> {
  const days = { from, to };
  const events: LedgerEvent[][] = await Promise.all([
    documentsOf(shop, { issuedOn: { gte: from, lte: to } }),
    paymentsOf(shop, { paidOn: { gte: from, lte: to } }),
    drawerIn(shop, days),
    stockToo ? stockIn(shop, days) : [],
  ]);
  return dayByDay(events.flat());
}

/** What happened before a day to the positions of some events. */
async function before(shop: ShopHandle, events: readonly LedgerEvent[], day: string): Promise<LedgerEvent[]> {
  const ids = { invoice: new Set<number>(), sale: new Set<number>() };
  for (const event of events) {
    const position = event.is === "document" || event.is === "payment" ? event.position : null;
    if (position === null) continue;
    const [noun, id] = position.split(":") as ["invoice" | "sale", string];
    ids[noun].add(Number(id));
  }
  const [invoices, sales] = [[...ids.invoice], [...ids.sale]];
  const issuedOn = { lt: day };
  const paidOn = { lt: day };
  const of = <R>(keys: readonly number[], read: (some: number[]) => Promise<R[]>) =>
    fetched(keys, read, POSITIONS);
  const earlier: LedgerEvent[][] = await Promise.all([
    of(invoices, (some) => documentsOf(shop, { issuedOn, saleId: null, id: { in: some } })),
    of(invoices, (some) => documentsOf(shop, { issuedOn, saleId: null, creditsId: { in: some } })),
    of(sales, (some) => documentsOf(shop, { issuedOn, saleId: { in: some } })),
    of(invoices, (some) => paymentsOf(shop, { paidOn, saleId: null, invoiceId: { in: some } })),
    of(sales, (some) => paymentsOf(shop, { paidOn, saleId: { in: some } })),
  ]);
  return dayByDay(earlier.flat());
}

async function* detailedEvents(
  shop: ShopHandle,
  events: readonly LedgerEvent[],
  detailFrom: string,
): AsyncGenerator<LedgerEvent> {
  const detailed = new Map<number, DocumentIssued>();
  let at = -1;
  for await (const event of inTurns(events)) {
    at += 1;
    if (event.is === "document" && event.day >= detailFrom) {
      if (!detailed.has(event.id)) await detailNext(shop, events, at, detailed);
      yield detailed.get(event.id) ?? event;
      detailed.delete(event.id);
    } else yield event;
  }
}

/** All events in their order: sorted within each day, which is far less work than sorting years of them at once. */
function dayByDay(events: readonly LedgerEvent[]): LedgerEvent[] {
  const days = Map.groupBy(events, (event) => event.day);
  return [...days.keys()].sort().flatMap((day) => (days.get(day) ?? []).sort(inOrder));
}

/** Reads what the next documents charge. */
async function detailNext(
  shop: ShopHandle,
  events: readonly LedgerEvent[],
  at: number,
  detailed: Map<number, DocumentIssued>,
): Promise<void> {
  const next = new Map<number, DocumentIssued>();
  for (let to = at; to < events.length && next.size < DOCUMENTS; to += 1) {
    const event = events[to];
    if (event?.is === "document") next.set(event.id, event);
  }
  const rows = await shop.read.invoice.findMany({
    where: { id: { in: [...next.keys()] } },
    select: { id: true, frozen: true },
    orderBy: { id: "asc" },
  });
  for (const { id, frozen } of rows) {
    const event = next.get(id);
    if (event) detailed.set(id, { ...event, nets: netsOf(storedInvoice(frozen)) });
  }
}

async function documentsOf(shop: ShopHandle, where: Prisma.InvoiceWhereInput): Promise<DocumentIssued[]> {
  const found: DocumentIssued[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.invoice.findMany({
      where: { AND: [where, { state: "issued", id: { gt: after } }] },
      select: {
        id: true,
        kind: true,
        written: true,
        saleId: true,
        issuedOn: true,
        netMinor: true,
        taxMinor: true,
        grossMinor: true,
        prepaidMinor: true,
        customer: NAMED,
        sale: { select: { invoices: SOLD_TO } },
        credits: {
          select: {
            id: true,
            takenBack: true,
            creditedBy: { select: { id: true }, orderBy: { id: "desc" }, take: 1 },
          },
        },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { netMinor, taxMinor, issuedOn, saleId, sale, credits, ...row } of rows)
      found.push({
        ...row,
        customer: sale ? (sale.invoices[0]?.customer ?? null) : row.customer,
        is: "document",
        source: { noun: "invoice", id: row.id },
        day: issuedOn ?? "",
        position: positionOf(saleId, credits?.id ?? row.id),
        closes: credits?.takenBack === true && credits.creditedBy[0]?.id === row.id,
        nets: [{ category: "S", rateBp: 1, workMinor: netMinor, partsMinor: 0, taxMinor }],
      });
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return found;
    after = last.id;
  }
}

const positionOf = (saleId: number | null, invoiceId: number): Position =>
  saleId === null ? `invoice:${invoiceId}` : `sale:${saleId}`;

async function paymentsOf(shop: ShopHandle, where: Prisma.PaymentWhereInput): Promise<MoneyMoved[]> {
  const found: MoneyMoved[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.payment.findMany({
      where: { AND: [where, { id: { gt: after } }] },
      select: {
        id: true,
        kind: true,
        jobId: true,
        invoiceId: true,
        method: true,
        amountMinor: true,
        roundingMinor: true,
        paidOn: true,
        reference: true,
        job: { select: { number: true, customer: NAMED } },
        invoice: { select: OF },
        saleId: true,
        sale: { select: { invoices: { select: OF, orderBy: { id: "asc" }, take: 20 } } },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { paidOn, jobId, saleId, invoiceId, job, invoice, sale, ...row } of rows) {
      const of = invoice ?? sale?.invoices[0];
      found.push({
        ...row,
        is: "payment",
        source: of ? { noun: "invoice", id: of.id } : { noun: "job", id: jobId ?? 0 },
        day: paidOn,
        position: saleId === null && invoiceId === null ? null : positionOf(saleId, invoiceId ?? 0),
        customer: sale
          ? (sale.invoices.findLast((one) => one.customer)?.customer ?? null)
          : (of?.customer ?? job?.customer ?? null),
        about: of ? `document ${of.written}` : `job ${job?.number ?? ""}`,
      });
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return found;
    after = last.id;
  }
}
