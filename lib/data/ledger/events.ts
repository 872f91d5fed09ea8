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
import { storedInvoice } from "../documents/invoice";
import { drawerUntil } from "./drawer";
import { stockEvents } from "./stock";

/** Rows that are read between other requests. */
const PAGE = 500;
/** Frozen documents are long: so many at a time. */
const DOCUMENTS = 25;

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

export interface EventsAsked {
  /** The last day, "YYYY-MM-DD". */
  readonly to: string;
  /** From this day on documents say what they charge by kind and tax; of earlier ones the totals do. */
  readonly detailFrom: string;
  readonly stockToo: boolean;
}

/** Everything that happened up to a day, in the order it is posted. */
export async function* ledgerEvents(shop: ShopHandle, asked: EventsAsked): AsyncGenerator<LedgerEvent> {
  const events = dayByDay([
    ...(await documentsUntil(shop, asked.to)),
    ...(await paymentsUntil(shop, asked.to)),
    ...(await drawerUntil(shop, asked.to)),
    ...(asked.stockToo ? await stockEvents(shop, asked.to) : []),
  ]);
  const detailed = new Map<number, DocumentIssued>();
  let at = -1;
  for await (const event of inTurns(events)) {
    at += 1;
    if (event.is === "document" && event.day >= asked.detailFrom) {
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

async function documentsUntil(shop: ShopHandle, to: string): Promise<DocumentIssued[]> {
  const found: DocumentIssued[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.invoice.findMany({
      where: { state: "issued", id: { gt: after }, issuedOn: { lte: to } },
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

async function paymentsUntil(shop: ShopHandle, to: string): Promise<MoneyMoved[]> {
  const found: MoneyMoved[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.payment.findMany({
      where: { id: { gt: after }, paidOn: { lte: to } },
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
