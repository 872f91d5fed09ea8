import type { TaxMark } from "../tax/rates";

/** A line written on a quote by hand. Amounts in minor units. */
export interface HandLine {
  readonly key: string;
  /** Work bought outside, or a line of the shop's own; at a price of 0 it is text. */
  readonly kind: "outside" | "text";
  readonly name: string;
  readonly priceMinor: number;
  readonly costMinor: number;
  /** Zero-rated, exempt or outside the scope; absent: as its kind is taxed. */
  readonly taxMark?: TaxMark | undefined;
  /** How many of `unit`, in thousandths, at `priceMinor` and `costMinor` each; absent: one of it. */
  readonly quantityMilli?: number | undefined;
  readonly unit?: string | undefined;
  /** Key of the work that it is part of; absent where it is written on the quote itself. */
  readonly work?: string | undefined;
}

/** A part of the shop's stock written on a quote by hand: reserved and taken like a part of a work. Amounts in minor units. */
export interface HandPart {
  readonly key: string;
  readonly code: string;
  /** What the quote calls it; empty: the part's own name. */
  readonly name: string;
  /** Thousandths of the part's unit. */
  readonly quantityMilli: number;
  /** Agreed for one unit; absent: as the part is priced. */
  readonly priceMinor?: number | undefined;
  /** Of one unit, without tax; absent: as the part's is known. */
  readonly costMinor?: number | undefined;
  /** Zero-rated, exempt or outside the scope; absent: as the part is taxed. */
  readonly taxMark?: TaxMark | undefined;
}

/** What was agreed on one quote beyond its package. Shares in basis points, amounts in minor units. */
export interface QuoteTerms {
  readonly lines: readonly HandLine[];
  /** Absent: none; facts kept before knew none. */
  readonly parts?: readonly HandPart[] | undefined;
  /** Shares off single lines, by the line's key. */
  readonly lineDiscounts: readonly { readonly line: string; readonly bp: number; readonly why: string }[];
  /** A share in place of the customer's usual discount, or an amount on top of it. */
  readonly discount:
    | { readonly kind: "percent"; readonly bp: number; readonly why: string }
    | { readonly kind: "amount"; readonly minor: number; readonly why: string }
    | null;
  /** Null: as the shop's settings say. */
  readonly deposit: { readonly percentBp: number } | { readonly amountMinor: number } | null;
  /** Options that the customer may add when accepting. */
  readonly extras: readonly string[];
}

/** Nothing agreed beyond the package. */
export const NO_TERMS: QuoteTerms = {
  lines: [],
  lineDiscounts: [],
  discount: null,
  deposit: null,
  extras: [],
};
