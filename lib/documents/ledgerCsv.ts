import type { BookedEntry } from "@/lib/domain/ledger/book";
import type { TrialRow } from "@/lib/domain/ledger/trial";
import { majorText } from "@/lib/domain/money/major";
import { csvParts, WEEK_FIELDS } from "./csv";

/** A column of a file: its name in the first row, and what stands in it. */
export interface CsvColumn {
  readonly name: string;
  readonly what: string;
}

type Cells<R> = readonly (CsvColumn & {
  readonly of: (row: R, currency: string) => string | number | null;
})[];

const AMOUNT = "decimal number in the shop's currency";
const DAY = "YYYY-MM-DD";

type JournalRow = BookedEntry & { readonly line: BookedEntry["lines"][number] };

const JOURNAL: Cells<JournalRow> = [
  { name: "day", what: DAY, of: (row) => row.day },
  {
    name: "entry",
    what: "known by this for good; lines of one entry add up to nothing",
    of: (row) => row.key,
  },
  { name: "journal", what: "document, payment, drawer or stock", of: (row) => row.journal },
  { name: "voucher", what: "the document or payment as it is named", of: (row) => row.name },
  { name: "text", what: "who or what it is about", of: (row) => row.text },
  { name: "customer", what: "name, empty for a walk-in", of: (row) => row.customer?.name ?? "" },
  { name: "account", what: "number of the account", of: (row) => row.line.account.code },
  { name: "account name", what: "name of the account", of: (row) => row.line.account.name },
  {
    name: "debit",
    what: `${AMOUNT}, empty for a credit`,
    of: ({ line }, currency) => (line.minor < 0 ? "" : majorText(line.minor, currency)),
  },
  {
    name: "credit",
    what: `${AMOUNT}, empty for a debit`,
    of: ({ line }, currency) => (line.minor < 0 ? majorText(0 - line.minor, currency) : ""),
  },
  {
    name: "tax category",
    what: "UNCL5305: S taxed, Z rate zero, E exempt, O outside the scope; income only",
    of: ({ line }) => line.tax?.category ?? "",
  },
  {
    name: "tax rate",
    what: "percent, income only",
    of: ({ line }) => (line.tax ? line.tax.rateBp / 100 : ""),
  },
  {
    name: "tax",
    what: `${AMOUNT}: the tax that belongs to this income, a charge above zero`,
    of: ({ line }, currency) => (line.tax ? majorText(0 - line.tax.taxMinor, currency) : ""),
  },
];

const BALANCES: Cells<TrialRow> = [
  { name: "account", what: "number of the account", of: (row) => row.account.code },
  { name: "account name", what: "name of the account", of: (row) => row.account.name },
  { name: "kind", what: "asset, liability, equity, income or expense", of: (row) => row.account.kind },
  {
    name: "opening",
    what: `${AMOUNT}, below zero for a credit`,
    of: (row, currency) => majorText(row.openingMinor, currency),
  },
  { name: "debit", what: AMOUNT, of: (row, currency) => majorText(row.debitMinor, currency) },
  { name: "credit", what: AMOUNT, of: (row, currency) => majorText(row.creditMinor, currency) },
  {
    name: "closing",
    what: `${AMOUNT}, below zero for a credit`,
    of: (row, currency) => majorText(row.closingMinor, currency),
  },
];

interface DocumentRow {
  readonly kind: string;
  readonly number: number | null;
  readonly written: string;
  readonly issuedOn: string | null;
  readonly dueOn: string | null;
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly prepaidMinor: number;
  readonly takenBack: boolean;
  readonly customer: { readonly name: string } | null;
  readonly credits: { readonly written: string } | null;
}

const DOCUMENTS: Cells<DocumentRow> = [
  {
    name: "series",
    what: "invoice, credit note or receipt",
    of: (row) => (row.kind === "creditNote" ? "credit note" : row.kind),
  },
  { name: "number", what: "whole number, without a gap in its series", of: (row) => row.number },
  { name: "written", what: "the number as the paper writes it", of: (row) => row.written },
  { name: "issued", what: DAY, of: (row) => row.issuedOn },
  { name: "due", what: DAY, of: (row) => row.dueOn },
  { name: "customer", what: "name, empty for a walk-in", of: (row) => row.customer?.name ?? "" },
  {
    name: "net",
    what: `${AMOUNT}, below zero on a credit note`,
    of: (row, currency) => majorText(row.netMinor, currency),
  },
  { name: "tax", what: AMOUNT, of: (row, currency) => majorText(row.taxMinor, currency) },
  { name: "gross", what: AMOUNT, of: (row, currency) => majorText(row.grossMinor, currency) },
  {
    name: "paid before",
    what: `${AMOUNT}: deposits taken off`,
    of: (row, currency) => majorText(row.prepaidMinor, currency),
  },
  {
    name: "credits",
    what: "the document that a credit note takes back",
    of: (row) => row.credits?.written ?? "",
  },
  {
    name: "credited in full",
    what: "yes where credit notes left nothing of it",
    of: (row) => (row.takenBack ? "yes" : ""),
  },
];

interface PaymentRow {
  readonly id: number;
  readonly kind: string;
  readonly method: string;
  readonly movedMinor: number;
  readonly settlesMinor: number;
  readonly roundingMinor: number;
  readonly paidOn: string;
  readonly at: Date;
  readonly reference: string;
  readonly reversesId: number | null;
  readonly job: string;
  readonly document: string;
  readonly customer: string;
}

const PAYMENTS: Cells<PaymentRow> = [
  { name: "payment", what: "number of the row, as the journal names it", of: (row) => row.id },
  { name: "day", what: DAY, of: (row) => row.paidOn },
  { name: "recorded", what: "ISO 8601 instant in UTC", of: (row) => row.at.toISOString() },
  { name: "kind", what: "deposit, payment, refund, writeOff, bounced or overpayment", of: (row) => row.kind },
  {
    name: "method",
    what: "cash, card, transfer; balance moves what a customer paid too much",
    of: (row) => row.method,
  },
  {
    name: "moved",
    what: `${AMOUNT}, below zero for money that went out`,
    of: (row, currency) => majorText(row.movedMinor, currency),
  },
  {
    name: "rounding",
    what: `${AMOUNT}: what cash rounding added to the amount or took off it`,
    of: (row, currency) => majorText(row.roundingMinor, currency),
  },
  {
    name: "settles",
    what: `${AMOUNT}: what it takes off what is owed`,
    of: (row, currency) => majorText(row.settlesMinor, currency),
  },
  { name: "document", what: "number of the document, empty for a deposit", of: (row) => row.document },
  { name: "job", what: "number of the job, empty for a counter sale", of: (row) => row.job },
  { name: "customer", what: "name, empty for a walk-in", of: (row) => row.customer },
  { name: "reference", what: "as it was typed", of: (row) => row.reference },
  { name: "takes back", what: "number of the payment that did not come", of: (row) => row.reversesId },
];

interface StockRow {
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  readonly valueMinor: number;
  readonly withoutCost: boolean;
}

const STOCK: Cells<StockRow> = [
  { name: "part", what: "code of the part", of: (row) => row.code },
  { name: "name", what: "name of the part", of: (row) => row.name },
  { name: "unit", what: "each, ml, mm or g", of: (row) => row.unit },
  { name: "quantity", what: "decimal number of units", of: (row) => row.quantityMilli / 1000 },
  { name: "value", what: `${AMOUNT}, at cost`, of: (row, currency) => majorText(row.valueMinor, currency) },
  {
    name: "without cost",
    what: "yes where some came in without a cost and counts as nothing",
    of: (row) => (row.withoutCost ? "yes" : ""),
  },
];

/** What stands in the columns of the hours; those of the days hold minutes. */
const HOURS: Readonly<Record<string, string>> = {
  person: "name",
  "week from": `${DAY}, a Monday`,
  "week to": `${DAY}, a Sunday`,
  minutes: "whole minutes of the week",
  hours: "the same as a decimal number",
  "breaks, minutes": "whole minutes",
  "not stopped yet": "yes while time still runs",
};

const named = <R>(cells: Cells<R>): CsvColumn[] => cells.map(({ name, what }) => ({ name, what }));

/** The columns of each file for the accountant, in their order. */
export const LEDGER_LAYOUT: Readonly<
  Record<"journal" | "balances" | "documents" | "payments" | "stock" | "hours", readonly CsvColumn[]>
> = {
  journal: named(JOURNAL),
  balances: named(BALANCES),
  documents: named(DOCUMENTS),
  payments: named(PAYMENTS),
  stock: named(STOCK),
  hours: WEEK_FIELDS.map((name) => ({ name, what: HOURS[name] ?? "whole minutes of that day" })),
};

const file =
  <R>(cells: Cells<R>) =>
  (rows: AsyncIterable<R> | Iterable<R>, currency: string) =>
    csvParts(
      cells.map((cell) => cell.name),
      rows,
      (row: R) => cells.map((cell) => cell.of(row, currency)),
    );

async function* linesOf(entries: AsyncIterable<BookedEntry>): AsyncGenerator<JournalRow> {
  for await (const entry of entries) for (const line of entry.lines) yield { ...entry, line };
}

/** The journal, a row for each line of each entry. */
export const journalCsvParts = (entries: AsyncIterable<BookedEntry>, currency: string) =>
  file(JOURNAL)(linesOf(entries), currency);
/** The trial balance, a row for each account. */
export const balancesCsvParts = file(BALANCES);
/** The documents register, a row for each number. */
export const documentsCsvParts = file(DOCUMENTS);
/** The payments register, a row for each row of money. */
export const paymentsCsvParts = file(PAYMENTS);
/** What lay in stock, a row for each part. */
export const stockCsvParts = file(STOCK);
