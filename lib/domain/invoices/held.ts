/** A payment as far as sums need it. */
export interface PaidRow {
  readonly kind: "deposit" | "payment" | "refund";
  readonly amountMinor: number;
  readonly roundingMinor: number;
}

/** What a payment settles, in minor units: below zero for money that went back. Cash rounding is not part of it. */
export function settled(payment: PaidRow): number {
  const settles = payment.amountMinor - payment.roundingMinor;
  return payment.kind === "refund" ? 0 - settles : settles;
}

/** The shop's money from a job: all that came in less all that went back. */
export function depositLeftOf(payments: readonly PaidRow[]): number {
  return payments.reduce((sum, payment) => sum + settled(payment), 0);
}
