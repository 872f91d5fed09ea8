import type { PrintedSeller } from "../invoices/printed";
import type { PayAsk } from "../money/payAsk";

/** A fee that is asked for with a reminder: of this one, or of one before it. */
export interface AskedFee {
  readonly level: number;
  readonly onDay: string;
  readonly minor: number;
}

/** A reminder of a late invoice as its paper prints it. Amounts in minor units, days "YYYY-MM-DD". */
export interface ReminderPaper {
  readonly level: number;
  readonly day: string;
  readonly invoice: {
    readonly written: string;
    readonly issuedOn: string;
    readonly dueOn: string;
    readonly grossMinor: number;
    /** What was credited of it. */
    readonly creditedMinor: number;
    /** Paid before and since, and what was written off. */
    readonly paidMinor: number;
    readonly leftMinor: number;
    readonly purpose: string;
  };
  readonly fees: readonly AskedFee[];
  /** What whoever reminds writes besides; may be empty. */
  readonly words: string;
  /** How it is to be paid. */
  readonly ask: PayAsk;
  readonly seller: PrintedSeller;
  readonly buyer: { readonly name: string; readonly address: string; readonly taxNumber: string };
  readonly locale: string;
  readonly country: string;
  readonly currency: string;
}

/** What is asked for in all: what is left, and the fees. */
export const askedMinor = ({ invoice, fees }: Pick<ReminderPaper, "invoice" | "fees">): number =>
  fees.reduce((sum, fee) => sum + fee.minor, invoice.leftMinor);
