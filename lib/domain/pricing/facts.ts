import type { Reason } from "../reason";
import type { ShopRates, TaxMark } from "../tax/rates";
import type { LineSaid } from "./said";

/** Everything a quote's price is computed from. Money in minor units unless the name says otherwise. */
export interface PriceFacts {
  readonly currency: string;
  /** Language and region that amounts in reasons are written for: en-AU. */
  readonly locale: string;
  /** True when the shop keeps and shows prices with tax in them. */
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  /** What the shop entered where the regime leaves rates open (EU, US, other countries). */
  readonly taxRates?: ShopRates;
  readonly labour: readonly LabourFact[];
  /** Minutes charged less because all works are done in one visit (already taken off `labour`), for showing. */
  readonly sharedMinutesSaved: number;
  readonly parts: readonly PartFact[];
  readonly fixed: readonly FixedFact[];
  readonly outside: readonly FixedFact[];
  /** Lines written by hand at a price of their own; a price of 0 is a line of text. */
  readonly byHand?: readonly FixedFact[];
  /** Basis points of labour and parts, e.g. 500 is 5 %. */
  readonly sundriesBp: number;
  readonly sundriesMaxMinor: number | null;
  /** Document discount in basis points, with its reason (customer class, agreed). */
  readonly discountBp: number;
  readonly discountWhy: string;
  /** Shares taken off single lines, by the line's key, before the document discount. */
  readonly lineDiscounts?: readonly LineDiscount[];
  /** An agreed amount off the whole, after the document discount; never more than what is left. */
  readonly amountOffMinor?: number;
  readonly amountOffWhy?: string;
  /** What is shown is brought down to a whole number of these (100 is one dollar); 0 or absent leaves it. */
  readonly roundDownToMinor?: number;
  readonly minimumMarginBp: number;
  readonly markupBands: readonly MarkupBand[];
}

/** A line that belongs to one of several works says which, by the work's key. */
interface OfWork {
  readonly work?: string | undefined;
}

export interface LabourFact extends OfWork {
  readonly key: string;
  readonly name: string;
  readonly minutes: number;
  readonly grade: string;
  readonly ratePerHourMinor: number;
  readonly costPerHourMinor: number;
  readonly because: readonly Reason[];
  readonly said?: readonly LineSaid[];
}

export interface PartFact extends OfWork {
  readonly code: string;
  /** Key of its line; absent: its code. */
  readonly key?: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  /** Cost of one unit in ten-thousandths of the major currency unit; null when unknown. */
  readonly unitCostE4: number | null;
  /** Set price of one unit, same scale; null: cost times the markup band. */
  readonly unitPriceE4: number | null;
  /** Zero-rated, exempt or outside the scope; absent: as parts are taxed. */
  readonly taxMark?: TaxMark;
  /** A jet that is priced when it is fitted; its line stands at nothing and says what it may come to. */
  readonly unsettled?: UnsettledFact;
  /** Its share of the set price of the kit that it came out of, which holds in place of its own price. */
  readonly kit?: KitShare;
}

/** A kit as a line names it. */
export interface KitMark {
  readonly code: string;
  readonly name: string;
}

/** What the whole quantity of a part comes to as part of a kit, in minor units. */
export interface KitShare extends KitMark {
  readonly amountMinor: number;
}

/** What an unsettled jet may turn out to be. */
export interface UnsettledFact extends UnsettledMark {
  /** "Main jet". */
  readonly name: string;
  /** Its size where that is known and only the part is not; null: unknown. */
  readonly size: number | null;
  /** What each size of its family costs and is sold for. */
  readonly sizes: readonly Pick<PartFact, "unitCostE4" | "unitPriceE4">[];
}

/** Names a line as one that is settled when the part is fitted. */
export interface UnsettledMark {
  readonly setting: string;
  readonly family: string;
}

export interface FixedFact extends OfWork {
  readonly key: string;
  readonly name: string;
  readonly priceMinor: number;
  readonly costMinor: number;
  /** Zero-rated, exempt or outside the scope; absent: as its kind is taxed. */
  readonly taxMark?: TaxMark | undefined;
  /** How many of `unit`, in thousandths, at `priceMinor` and `costMinor` each; absent: one. */
  readonly quantityMilli?: number | undefined;
  readonly unit?: string | undefined;
}

export interface LineDiscount {
  readonly line: string;
  readonly bp: number;
  readonly why: string;
}

/** Markup for parts costing up to `upToE4` a unit; null is "anything dearer". */
export interface MarkupBand {
  readonly upToE4: number | null;
  readonly markupBp: number;
}

export type LineKind = "labour" | "part" | "fixed" | "sundries" | "outside" | "discount";

/** One printed line. `netMinor` is tax-exclusive (BT-131); `shownMinor` follows the shop's way of showing prices. */
export interface PriceLine extends OfWork {
  readonly key: string;
  /** Number of its job, on an invoice of several. */
  readonly job?: string;
  readonly kind: LineKind;
  readonly name: string;
  /** Thousandths: of an hour for labour, of the part's unit for parts, of one for the rest. */
  readonly quantityMilli: number;
  readonly unit: string;
  readonly unitPriceE4: number;
  readonly netMinor: number;
  readonly shownMinor: number;
  readonly costMinor: number | null;
  readonly taxCategory: string;
  readonly taxRateBp: number;
  readonly because: readonly Reason[];
  /** What of its name the engine said by itself; absent: nothing. */
  readonly said?: readonly LineSaid[];
  /** Present where the part is settled, and charged, when it is fitted. */
  readonly unsettled?: UnsettledMark;
  /** The kit whose set price it has a share of. */
  readonly kit?: KitMark;
}

export interface TaxSubtotal {
  readonly category: string;
  readonly rateBp: number;
  readonly name: string;
  readonly taxableMinor: number;
  readonly taxMinor: number;
}

export interface PricedQuote {
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly lines: readonly PriceLine[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly taxes: readonly TaxSubtotal[];
  readonly costMinor: number;
  /** Basis points of net; null when a cost is missing or nothing is charged. */
  readonly marginBp: number | null;
  /** True where every line's cost is known. */
  readonly costKnown: boolean;
  readonly warnings: readonly string[];
  /** Key of the regime that named the taxes. */
  readonly taxRegime?: string;
  /** Codes of parts that stand at 0 for want of a price: such a quote must not be sent. */
  readonly unpriced?: readonly string[];
  /** Facts that hold for the whole price: tax regime, shared minutes. */
  readonly because?: readonly Reason[];
}
