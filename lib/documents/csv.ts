import Papa from "papaparse";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { majorText } from "@/lib/domain/money/major";

/**
 * What a spreadsheet would run: a sign of a formula, full-width ones with it, behind whatever blanks and marks a program
 * may skip; save a minus that only makes a number negative. OWASP, CSV Injection, lists the signs.
 */
const FORMULA =
  /^(?:[\t\r\n]|[\s\p{Cc}\p{Cf}\p{Z}"']*[=+@\uFF1D\uFF0B\uFF20\uFF0D\u2212]|[\s\p{Cc}\p{Cf}\p{Z}"']*-(?!(?<=^-)\d+(?:\.\d+)?$))/u;

/** Rows as CSV (RFC 4180, comma, CRLF), a byte-order mark first so that spreadsheets read UTF-8; what they would run as a formula is text. */
export function toCsv(
  fields: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): string {
  return `\uFEFF${csvRows([fields, ...rows])}`;
}

/** Rows without a heading, each with the end of its line. */
export function csvRows(rows: readonly (readonly (string | number | null)[])[]): string {
  const body = Papa.unparse(
    rows.map((row) => row.map((cell) => cell ?? "")),
    { escapeFormulae: FORMULA, newline: "\r\n" },
  );
  return `${body}\r\n`;
}

type Cell = string | number | null;

/** A file of rows, some of them at a time, so that a long one holds neither the server nor its memory. */
export async function* csvParts<R>(
  fields: readonly string[],
  rows: AsyncIterable<R> | Iterable<R>,
  cells: (row: R) => readonly Cell[],
): AsyncGenerator<string, void, undefined> {
  yield toCsv(fields, []);
  let some: (readonly Cell[])[] = [];
  for await (const row of rows) {
    some.push(cells(row));
    if (some.length < AT_ONCE) continue;
    yield csvRows(some);
    some = [];
  }
  if (some.length > 0) yield csvRows(some);
}

export interface ExportedInvoice {
  readonly doc: PrintedInvoice;
  /** What payments settled of it; what was credited or written off is none of it. */
  readonly paidMinor: number;
  readonly writtenOffMinor: number;
  readonly creditedBy: string | null;
}

const FIELDS = [
  "kind",
  "number",
  "issued",
  "due",
  "customer",
  "customer tax number",
  "job",
  "bike",
  "currency",
  "net",
  "tax",
  "gross",
  "paid before",
  "paid",
  "tax rates",
  "credits",
  "credited by",
  "written off",
];

/** Issued documents for the books: a row for each. Amounts are decimal numbers; a credit note's are below zero. */
export function invoicesCsv(invoices: readonly ExportedInvoice[]): string {
  return toCsv(FIELDS, rowsOf(invoices));
}

/** The same a few hundred documents at a time, so that a long export holds neither the server nor its memory. */
export async function* invoicesCsvParts(
  invoices: AsyncIterable<ExportedInvoice>,
): AsyncGenerator<string, void, undefined> {
  yield toCsv(FIELDS, []);
  let some: ExportedInvoice[] = [];
  for await (const one of invoices) {
    some.push(one);
    if (some.length < AT_ONCE) continue;
    yield csvRows(rowsOf(some));
    some = [];
  }
  if (some.length > 0) yield csvRows(rowsOf(some));
}

const AT_ONCE = 100;

const rowsOf = (invoices: readonly ExportedInvoice[]) =>
  invoices.map(({ doc, paidMinor, writtenOffMinor, creditedBy }) => {
    const money = (minor: number) => majorText(minor, doc.currency);
    return [
      doc.kind === "creditNote" ? "credit note" : doc.kind,
      doc.written,
      doc.issuedOn,
      doc.dueOn,
      doc.buyer.name,
      doc.buyer.taxNumber,
      doc.jobs.map((job) => job.number).join(", "),
      doc.jobs.map((job) => job.bike.name).join(", "),
      doc.currency,
      money(doc.netMinor),
      money(doc.taxMinor),
      money(doc.grossMinor),
      money(doc.prepaidMinor),
      money(paidMinor),
      doc.taxes
        .map(
          (tax) =>
            `${tax.name}: ${majorText(tax.taxMinor, doc.currency)} on ${majorText(tax.taxableMinor, doc.currency)}`,
        )
        .join("; "),
      doc.credits?.written ?? null,
      creditedBy,
      money(writtenOffMinor),
    ];
  });

/** A person's week as it goes to wages. */
export interface ExportedWeek {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly days: readonly number[];
  readonly minutes: number;
  readonly breakMinutes: number;
  readonly running: boolean;
}

/** The columns of the hours for wages. */
export const WEEK_FIELDS: readonly string[] = [
  "person",
  "week from",
  "week to",
  ...["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"].map(
    (day) => `${day}, minutes`,
  ),
  "minutes",
  "hours",
  "breaks, minutes",
  "not stopped yet",
];

/** Hours as recorded, a row for each person and week: days are local, minutes whole, overtime not computed. */
export async function* hoursCsvParts(
  weeks: AsyncIterable<ExportedWeek>,
): AsyncGenerator<string, void, undefined> {
  yield toCsv(WEEK_FIELDS, []);
  for await (const week of weeks)
    yield csvRows([
      [
        week.name,
        week.from,
        week.to,
        ...week.days,
        week.minutes,
        (week.minutes / 60).toFixed(2),
        week.breakMinutes,
        week.running ? "yes" : "",
      ],
    ]);
}
