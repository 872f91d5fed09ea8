import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader } from "@/lib/db/shop";
import { settled } from "@/lib/domain/invoices/held";
import { entriesByMoney, type Happening, type TaxEntry } from "@/lib/domain/taxReport/entries";
import { chunks } from "../common/chunks";
import { MOST_CREDITS } from "../invoices/rows";

/** A line of the summary with what it stands on, as lists and files name it. */
export interface ShownEntry extends TaxEntry {
  /** The issued document that it is of; null for a deposit. */
  readonly document: { readonly id: number; readonly kind: string; readonly written: string } | null;
  readonly job: { readonly id: number; readonly number: string } | null;
  readonly customer: string;
  /** What moved the money: a kind of payment; empty for a document. */
  readonly moved: string;
}

const TAXES = {
  select: { category: true, rateBp: true, netMinor: true, taxMinor: true },
  orderBy: { id: "asc" },
  take: 50,
} as const satisfies Prisma.Invoice$taxesArgs;

const PAYMENTS = {
  select: { id: true, kind: true, amountMinor: true, roundingMinor: true, paidOn: true, at: true },
  orderBy: { id: "asc" },
  take: 1000,
} as const satisfies Prisma.Invoice$paymentsArgs;

const DOCUMENT = {
  id: true,
  kind: true,
  written: true,
  issuedOn: true,
  createdAt: true,
  taxes: TAXES,
} as const satisfies Prisma.InvoiceSelect;

type Document = Prisma.InvoiceGetPayload<{ select: typeof DOCUMENT }>;
type Payment = Prisma.InvoiceGetPayload<{ select: { payments: typeof PAYMENTS } }>["payments"][number];

/** Both kinds of entries. */
export interface MoneyEntries {
  readonly paid: readonly ShownEntry[];
  readonly off: readonly ShownEntry[];
}

/** What counts by money of some invoices of jobs, each with its credit notes. */
export async function* invoicesByMoney(
  read: ShopReader,
  ids: readonly number[],
): AsyncGenerator<MoneyEntries> {
  for (const some of chunks(ids)) {
    const rows = await read.invoice.findMany({
      where: { id: { in: some }, state: "issued" },
      select: {
        ...DOCUMENT,
        prepaidMinor: true,
        customer: { select: { name: true } },
        payments: PAYMENTS,
        creditedBy: { select: DOCUMENT, orderBy: { id: "asc" }, take: MOST_CREDITS },
      },
      orderBy: { id: "asc" },
    });
    for (const { payments, creditedBy, prepaidMinor, customer, ...own } of rows) {
      const later = [...payments.map(ofPayment), ...creditedBy.map((credit) => ofDocument(credit, 0))];
      const events = [ofDocument(own, prepaidMinor), ...later.sort((one, two) => one.at - two.at)];
      yield shown(events, [own, ...creditedBy], payments, own, customer?.name ?? "");
    }
  }
}

/** What counts by money of some counter sales, each with all its documents. */
export async function* salesByMoney(read: ShopReader, ids: readonly number[]): AsyncGenerator<MoneyEntries> {
  for (const some of chunks(ids)) {
    const rows = await read.sale.findMany({
      where: { id: { in: some } },
      select: {
        invoices: {
          where: { state: "issued" },
          select: { ...DOCUMENT, customer: { select: { name: true } } },
          orderBy: { id: "asc" },
          take: 50,
        },
        payments: PAYMENTS,
      },
      orderBy: { id: "asc" },
    });
    for (const { invoices, payments } of rows) {
      const [first] = invoices;
      if (!first) continue;
      // The money of a sale is its payments, whichever of its documents takes it off.
      const events = [...invoices.map((one) => ofDocument(one, 0)), ...payments.map(ofPayment)];
      const customer =
        invoices
          .map((one) => one.customer?.name)
          .filter(Boolean)
          .at(-1) ?? "";
      yield shown(
        events.sort((one, two) => one.at - two.at),
        invoices,
        payments,
        first,
        customer,
      );
    }
  }
}

type Event = Happening & { readonly at: number };

const ofDocument = ({ id, issuedOn, createdAt, taxes }: Document, heldMinor: number): Event => ({
  kind: "document",
  on: issuedOn ?? "",
  ref: `d${id}`,
  taxes,
  heldMinor,
  at: createdAt.getTime(),
});

const ofPayment = (row: Payment): Event => ({
  kind: row.kind === "writeOff" ? "writeOff" : "money",
  on: row.paidOn,
  ref: `p${row.id}`,
  minor: settled(row),
  at: row.at.getTime(),
});

function shown(
  events: readonly Happening[],
  documents: readonly Document[],
  payments: readonly Payment[],
  own: Document,
  customer: string,
): MoneyEntries {
  const { paid, off } = entriesByMoney(events);
  const named = (entry: TaxEntry): ShownEntry => {
    const { id, kind, written } = documents.find((one) => `d${one.id}` === entry.ref) ?? own;
    const moved = payments.find((one) => `p${one.id}` === entry.ref)?.kind ?? "";
    return { ...entry, document: { id, kind, written }, job: null, customer, moved };
  };
  return { paid: paid.map(named), off: off.map(named) };
}
