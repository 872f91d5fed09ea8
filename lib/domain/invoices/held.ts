export type PaymentKind = "deposit" | "payment" | "refund" | "writeOff" | "bounced" | "overpayment";

/** A payment as far as sums need it. */
export interface PaidRow {
  readonly kind: PaymentKind;
  readonly amountMinor: number;
  readonly roundingMinor: number;
}

/**
 * What a row settles, in minor units: below zero for money that went back or never came. A write-off settles what will not be paid; one
 * that was taken back is below zero itself. Cash rounding is not part of it.
 */
export function settled(payment: PaidRow): number {
  const settles = payment.amountMinor - payment.roundingMinor;
  return wentBack(payment.kind) ? 0 - settles : settles;
}

/** The amount as it moved: below zero for money that went back or never came. */
export const movedMinor = ({ kind, amountMinor }: Pick<PaidRow, "kind" | "amountMinor">): number =>
  wentBack(kind) ? 0 - amountMinor : amountMinor;

const wentBack = (kind: PaymentKind) => kind === "refund" || kind === "bounced";

/** The shop's money from a job: all that came in less all that went back or bounced. What was written off is no money. */
export function depositLeftOf(payments: readonly PaidRow[]): number {
  return payments.reduce((sum, payment) => (payment.kind === "writeOff" ? sum : sum + settled(payment)), 0);
}

/** What of an invoice was written off, in minor units. */
export function writtenOff(payments: readonly PaidRow[]): number {
  return payments.reduce((sum, payment) => (payment.kind === "writeOff" ? sum + settled(payment) : sum), 0);
}

/** Money that stands, as papers list it: what bounced is left out with the row it takes back, and write-offs are. */
export function standingMoney<
  T extends PaidRow & { readonly id: number; readonly reversesId: number | null },
>(payments: readonly T[]): T[] {
  const reversed = new Set(payments.map((payment) => payment.reversesId));
  return payments.filter(
    (payment) => payment.kind !== "writeOff" && payment.kind !== "bounced" && !reversed.has(payment.id),
  );
}
