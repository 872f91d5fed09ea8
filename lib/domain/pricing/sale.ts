import type { TaxMark } from "../tax/rates";
import type { PricedQuote, PriceFacts } from "./facts";
import { priceQuote } from "./quote";

/** A part sold over the counter, at the price that was agreed there. */
export interface SoldPart {
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  /** Price of one unit as the shop shows prices, in ten-thousandths of the major currency unit. */
  readonly unitPriceE4: number;
  /** What is taken off this line, in basis points. */
  readonly discountBp: number;
  readonly taxMark?: TaxMark;
}

/** A part as the counter sells it: what it costs the shop stays out. */
export interface PartForSale {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  /** On hand and promised to no job. */
  readonly freeMilli: number;
  /** Price of one as the shop shows prices; null where neither a price nor a cost is known. */
  readonly priceE4: number | null;
  readonly taxMark: TaxMark;
}

/** A kit as the counter opens it. */
export interface KitForSale {
  readonly code: string;
  readonly name: string;
  /** Price of one kit in minor units, as the shop shows prices; null: what its parts cost. */
  readonly priceMinor: number | null;
  readonly parts: readonly { readonly part: PartForSale; readonly quantityMilli: number }[];
}

/** How the shop prices and taxes, and what is taken off the whole. */
export type SaleRules = Pick<
  PriceFacts,
  "currency" | "locale" | "pricesIncludeTax" | "taxRegime" | "taxRates"
> & { readonly discountBp: number; readonly discountWhy: string };

/**
 * Prices a counter sale: a line for each part, a line for each thing taken off, then taxes and totals as on a quote or an
 * invoice. Amounts in minor units. Throws Refusal for an unknown currency or regime, OutOfRange for what cannot be.
 */
export function priceSale(parts: readonly SoldPart[], rules: SaleRules): PricedQuote {
  const { discountBp, discountWhy, ...book } = rules;
  return priceQuote({
    ...book,
    labour: [],
    parts: parts.map(({ discountBp: _, ...part }) => ({ ...part, unitCostE4: null })),
    fixed: [],
    outside: [],
    sharedMinutesSaved: 0,
    sundriesBp: 0,
    sundriesMaxMinor: null,
    discountBp,
    discountWhy,
    lineDiscounts: parts
      .filter((part) => part.discountBp > 0)
      .map((part) => ({ line: part.code, bp: part.discountBp, why: "" })),
    minimumMarginBp: 0,
    markupBands: [],
  });
}
