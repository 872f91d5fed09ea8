import type { PayAsk } from "../money/payAsk";
import type { PrintedSeller } from "./printed";

/** What a paper about money that is no invoice says: a deposit that is asked for, money that came in, or money that went back. */
export type MoneyPaperKind = "depositRequest" | "received" | "paidBack";

/** Everything that such a paper prints. Money in minor units and above zero, days as "YYYY-MM-DD". */
export interface PrintedMoney {
  readonly kind: MoneyPaperKind;
  /** By which it is found again: the quote's number, or that of the payment. */
  readonly number: string;
  readonly day: string;
  readonly seller: Omit<PrintedSeller, "bankDetails">;
  readonly buyer: { readonly name: string; readonly address: string };
  readonly country: string;
  readonly locale: string;
  readonly currency: string;
  /** What it is for: an invoice by its number, or a job. */
  readonly lines: readonly {
    readonly of: "invoice" | "job" | "balance";
    readonly number: string;
    readonly title: string;
    /** How it was paid; empty on a request. */
    readonly method: string;
    readonly minor: number;
  }[];
  readonly totalMinor: number;
  /** Of a request: what was agreed in all. */
  readonly agreedMinor: number | null;
  /** Why money went back, or what its payer wrote. */
  readonly said: string;
  /** How to pay, on a request. */
  readonly ask: PayAsk | null;
}
