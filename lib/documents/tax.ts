import { majorText } from "@/lib/domain/money/major";
import type { TaxEntry } from "@/lib/domain/taxReport/entries";
import { csvRows, toCsv } from "./csv";

/** A line of the report's file. */
export interface TaxRow extends TaxEntry {
  /** "main", "deposits" or "off" (written off, no part of what is reported). */
  readonly part: string;
  readonly document: { readonly kind: string; readonly written: string } | null;
  readonly job: { readonly number: string } | null;
  readonly customer: string;
  readonly moved: string;
}

/** The columns of the file, in their order; tests/data/taxReport.test.ts reads them back. */
const FIELDS = [
  "part",
  "day",
  "kind",
  "document",
  "job",
  "customer",
  "what",
  "basis",
  "category",
  "rate",
  "currency",
  "net",
  "tax",
  "gross",
] as const;

const LINES = 200;

/**
 * The report as a file: a row for each document and rate, or for each change that money made. `kind` and `document` name the issued
 * document, `what` what moved the money, `category` is a code of UNCL5305, `rate` per cent. Amounts are decimal numbers; those of
 * credit notes and of money that went back are below zero.
 */
export async function* taxCsv(
  rows: AsyncIterable<TaxRow>,
  { basis, currency }: { readonly basis: string; readonly currency: string },
): AsyncGenerator<string> {
  const text = (minor: number) => majorText(minor, currency);
  yield toCsv(FIELDS, []);
  let some: (string | number)[][] = [];
  for await (const row of rows) {
    some.push([
      row.part,
      row.on,
      row.document?.kind ?? "",
      row.document?.written ?? "",
      row.job?.number ?? "",
      row.customer,
      row.moved,
      basis,
      row.category,
      row.rateBp / 100,
      currency,
      text(row.netMinor),
      text(row.taxMinor),
      text(row.netMinor + row.taxMinor),
    ]);
    if (some.length < LINES) continue;
    yield csvRows(some);
    some = [];
  }
  yield csvRows(some);
}
