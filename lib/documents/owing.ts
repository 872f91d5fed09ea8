import type { Column } from "@/lib/domain/chasing/accountLines";
import { majorText } from "@/lib/domain/money/major";
import { toCsv } from "./csv";

/** One amount of a customer's account with its document. */
export interface OwingRow {
  readonly customer: string;
  readonly document: "invoice" | "job";
  readonly number: string;
  readonly issuedOn: string | null;
  readonly dueOn: string | null;
  readonly daysPast: number;
  readonly column: Column;
  readonly minor: number;
}

/** The columns' names in the file. */
const COLUMN_NAMES: Readonly<Record<Column, string>> = {
  notDue: "not due",
  to30: "1-30",
  to60: "31-60",
  to90: "61-90",
  over90: "over 90",
  balance: "over-paid",
  deposit: "deposit",
  credit: "credit note",
};

const FIELDS = [
  "at the end of",
  "customer",
  "document",
  "number",
  "issued",
  "due",
  "days past due",
  "column",
  "currency",
  "amount",
];

/** What customers owe at the end of a day: amounts are decimal numbers, below zero in the customer's favour. */
export function owingCsv(
  rows: readonly OwingRow[],
  { day, currency }: { readonly day: string; readonly currency: string },
): string {
  return toCsv(
    FIELDS,
    rows.map((row) => [
      day,
      row.customer,
      row.document,
      row.number,
      row.issuedOn,
      row.dueOn,
      row.daysPast,
      COLUMN_NAMES[row.column],
      currency,
      majorText(row.minor, currency),
    ]),
  );
}
