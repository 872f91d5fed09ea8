import { type PaidRow, settled } from "../invoices/held";

/** A row of money with the day it moved and the invoice it was counted on; null for none. */
export interface DatedMoney extends PaidRow {
  readonly invoiceId: number | null;
  readonly paidOn: string;
}

export interface DatedCredit {
  readonly issuedOn: string;
  /** Below zero. */
  readonly grossMinor: number;
}

/** An issued invoice with its credit notes and all money of its jobs. Days are "YYYY-MM-DD", amounts minor units. */
export interface DatedInvoice {
  readonly id: number;
  readonly issuedOn: string;
  readonly grossMinor: number;
  /** Money of its jobs that was there as it was issued. */
  readonly prepaidMinor: number;
  /** Credit notes have taken all of it back, the last of them included. */
  readonly takenBack: boolean;
  readonly credits: readonly DatedCredit[];
  readonly money: readonly DatedMoney[];
}

export interface OpenAt {
  /** Still to be paid on that day; below zero where the customer has more coming than was charged. */
  readonly openMinor: number;
  /** What credit notes had taken off it by then. */
  readonly creditedMinor: number;
  /** Money of its jobs that it did not count: nothing but where money was entered for a day on which another invoice stood. */
  readonly looseMinor: number;
}

/** True where an invoice was issued by a day and not taken back by then. */
export const stoodOn = (invoice: DatedInvoice, day: string): boolean =>
  invoice.issuedOn <= day &&
  !(invoice.takenBack && invoice.credits.every((credit) => credit.issuedOn <= day));

/** Money that moved by a day, as far as it was settled, in minor units. */
export const moneyBy = (rows: readonly DatedMoney[], day: string): number =>
  rows.reduce((sum, row) => (row.paidOn <= day ? sum + settled(row) : sum), 0);

/**
 * What was open of an invoice at the end of a day on which it stood: its total, less what credit notes had taken off, what was paid
 * before it, and what was paid, written off and given back on it by then. `openMinor` less `looseMinor` is always total plus credit
 * notes less all money of its jobs, so that sums over invoices agree with the documents.
 */
export function openAt(invoice: DatedInvoice, day: string): OpenAt {
  const credited = invoice.credits.reduce(
    (sum, credit) => (credit.issuedOn <= day ? sum - credit.grossMinor : sum),
    0,
  );
  const own = moneyBy(
    invoice.money.filter((row) => row.invoiceId === invoice.id),
    day,
  );
  return {
    openMinor: invoice.grossMinor - credited - invoice.prepaidMinor - own,
    creditedMinor: credited,
    looseMinor: moneyBy(invoice.money, day) - own - invoice.prepaidMinor,
  };
}
