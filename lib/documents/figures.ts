import { majorText } from "@/lib/domain/money/major";
import { csvRows, toCsv } from "./csv";

interface RevenueRow {
  readonly kind: string;
  readonly written: string;
  readonly issuedOn: string | null;
  readonly customer: string;
  readonly netMinor: number;
  readonly minutes: number;
}

const AT_ONCE = 100;

/**
 * Documents behind revenue, some at a time: their net without tax as a decimal number, a credit note's below zero, and labour in
 * minutes.
 */
export async function* revenueCsvParts(
  rows: AsyncIterable<RevenueRow>,
  currency: string,
): AsyncGenerator<string, void, undefined> {
  yield toCsv(["kind", "number", "issued", "customer", "currency", "net", "labour, minutes"], []);
  let some: (string | number | null)[][] = [];
  for await (const row of rows) {
    some.push([
      row.kind === "creditNote" ? "credit note" : row.kind,
      row.written,
      row.issuedOn,
      row.customer,
      currency,
      majorText(row.netMinor, currency),
      row.minutes,
    ]);
    if (some.length < AT_ONCE) continue;
    yield csvRows(some);
    some = [];
  }
  if (some.length > 0) yield csvRows(some);
}

interface JobRow {
  readonly packages: string;
  readonly number: string;
  readonly netMinor: number;
  readonly partsMinor: number;
  readonly plannedMinutes: number;
  readonly tookMinutes: number;
  readonly rides: number;
  readonly comebacks: number;
}

/** Jobs by their packages: what was billed without tax and what parts cost as decimal numbers, planned and taken minutes. */
export const packageJobsCsv = (rows: readonly JobRow[], currency: string): string =>
  toCsv(
    [
      "packages",
      "job",
      "currency",
      "net",
      "parts cost",
      "planned minutes",
      "minutes taken",
      "rides",
      "comebacks",
    ],
    rows.map((row) => [
      row.packages,
      row.number,
      currency,
      majorText(row.netMinor, currency),
      majorText(row.partsMinor, currency),
      row.plannedMinutes,
      row.tookMinutes,
      row.rides,
      row.comebacks,
    ]),
  );

interface HoursRow {
  readonly month: string;
  readonly soldMinutes: number;
  readonly tookMinutes: number;
  readonly presentMinutes: number;
}

/** Hours by month, in minutes. */
export const soldHoursCsv = (rows: readonly HoursRow[]): string =>
  toCsv(
    ["month", "sold, minutes", "on jobs, minutes", "present, minutes"],
    rows.map((row) => [row.month, row.soldMinutes, row.tookMinutes, row.presentMinutes]),
  );

interface PaidRow {
  readonly written: string;
  readonly customer: string;
  readonly issuedOn: string;
  readonly paidOn: string;
  readonly days: number;
  readonly amountMinor: number;
}

/** Payments and how long after the invoice they came. */
export const daysToPayCsv = (rows: readonly PaidRow[], currency: string): string =>
  toCsv(
    ["invoice", "customer", "issued", "paid", "days", "currency", "amount"],
    rows.map((row) => [
      row.written,
      row.customer,
      row.issuedOn,
      row.paidOn,
      row.days,
      currency,
      majorText(row.amountMinor, currency),
    ]),
  );

interface StockRow {
  readonly code: string;
  readonly name: string;
  readonly onHandMilli: number;
  readonly valueMinor: number;
  readonly usedMinor: number;
  readonly dead: boolean;
}

/** Parts on hand: what they are worth and what was used of them in the range, at today's cost; quantities in the part's unit. */
export const stockFiguresCsv = (rows: readonly StockRow[], currency: string): string =>
  toCsv(
    ["part", "name", "on hand", "currency", "value", "used in the range", "dead"],
    rows.map((row) => [
      row.code,
      row.name,
      row.onHandMilli / 1000,
      currency,
      majorText(row.valueMinor, currency),
      majorText(row.usedMinor, currency),
      row.dead ? "yes" : "",
    ]),
  );
