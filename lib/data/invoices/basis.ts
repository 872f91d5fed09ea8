import type { PrintedLine } from "@/lib/domain/invoices/printed";
import type { PriceFacts, PriceLine } from "@/lib/domain/pricing/facts";
import { Refusal } from "@/lib/domain/refusal";
import { ratesOf } from "@/lib/domain/tax/rates";
import type { FrozenLine } from "../documents/quote";
import type { InvoiceFacts } from "./facts";

/** The lines of an invoice on one basis, and the terms that they are priced under. */
export interface BasisLines {
  readonly lines: readonly PriceLine[];
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly quotes: readonly string[];
}

/** A printed line with no cost, where the domain wants a whole one. */
export const costless = (line: FrozenLine | PrintedLine): PriceLine => ({ ...line, costMinor: null });

/** The shop's price rules as they are now: what is not agreed is priced by these. */
export function rulesOf({ settings, bands }: InvoiceFacts) {
  const { currency, locale, pricesIncludeTax, taxRegime } = settings;
  return {
    currency,
    locale,
    pricesIncludeTax,
    taxRegime,
    taxRates: ratesOf(settings),
    sharedMinutesSaved: 0,
    minimumMarginBp: 0,
    markupBands: bands,
  } satisfies Partial<PriceFacts>;
}

/** A part that was used cannot be billed while it has no price. */
export const unpricedPart = (code: string): Refusal =>
  new Refusal(
    `Part ${code} was used and has no price.`,
    "Give it a cost or a price under Stock, then look again.",
  );
