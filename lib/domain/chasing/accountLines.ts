import { type Age, ageOf } from "./age";
import { type DatedInvoice, type DatedMoney, moneyBy, openAt, stoodOn } from "./openAt";

/** Columns beside the ages: what the customer has coming. */
export const FAVOURS = ["balance", "deposit", "credit"] as const;
export type Favour = (typeof FAVOURS)[number];
export type Column = Age | Favour;

/** An amount of a customer's account in one column; below zero in the customer's favour. */
export interface AccountAmount {
  readonly column: Column;
  readonly minor: number;
}

/**
 * The amounts of an invoice at the end of a day: what is open, by its age; or what the customer has coming, from credit notes first
 * and from over-payments for the rest. Nothing where the invoice did not stand. They add up to total plus credit notes less all money
 * of its jobs by then.
 */
export function amountsOfInvoice(
  invoice: DatedInvoice & { readonly dueOn: string | null },
  day: string,
): AccountAmount[] {
  if (!stoodOn(invoice, day)) return [];
  const { openMinor, creditedMinor, looseMinor } = openAt(invoice, day);
  const over = Math.max(0, 0 - openMinor);
  const credit = Math.min(over, creditedMinor);
  const amounts: AccountAmount[] = [
    { column: ageOf(invoice.dueOn, day), minor: Math.max(0, openMinor) },
    { column: "credit", minor: 0 - credit },
    { column: "balance", minor: credit - over },
    { column: "deposit", minor: 0 - looseMinor },
  ];
  return amounts.filter(({ minor }) => minor !== 0);
}

/**
 * What the shop held at the end of a day of a job on which no invoice stood: a deposit, or after an invoice was taken back what its
 * credit note left to be used. Nothing where it held nothing.
 */
export function amountOfJob(
  job: { readonly money: readonly DatedMoney[]; readonly creditedBefore: boolean },
  day: string,
): AccountAmount[] {
  const held = moneyBy(job.money, day);
  return held === 0 ? [] : [{ column: job.creditedBefore ? "credit" : "deposit", minor: 0 - held }];
}

/** Sums by column, and over all of them. */
export function sumColumns(amounts: readonly AccountAmount[]): {
  readonly columns: Readonly<Partial<Record<Column, number>>>;
  readonly totalMinor: number;
} {
  const columns: Partial<Record<Column, number>> = {};
  let totalMinor = 0;
  for (const { column, minor } of amounts) {
    columns[column] = (columns[column] ?? 0) + minor;
    totalMinor += minor;
  }
  return { columns, totalMinor };
}
