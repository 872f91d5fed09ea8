import type { Conditions } from "../air/conditions";
import type { Air } from "../air/weather";
import type { ModelFacts } from "../packages/facts";
import type { Recipe } from "../packages/recipe";
import type { MarkupBand } from "../pricing/facts";
import type { OnTheWay } from "../stock/arrival";
import type { TaxMark } from "../tax/rates";
import type { ShimOnHand } from "../tuning/needlePosition";
import type { NeedleRecord } from "../tuning/needleRecord";
import type { Observation } from "../tuning/rideTypes";
import type { FoundCarburettor, ModelCardFacts, RegionCorrection } from "../tuning/targetTypes";
import type { WorkHead } from "./composeWorks";
import type { HandLine, QuoteTerms } from "./terms";

/** How the shop quotes. Shares in basis points, amounts in minor units. */
export interface ShopTerms {
  readonly currency: string;
  readonly locale: string;
  readonly zone: string;
  readonly altitudeM: number;
  /** Where typical weather is told for, south and west negative; facts kept before had no longitude. */
  readonly latitude: number;
  readonly longitude?: number | null | undefined;
  readonly taxRegime: string;
  readonly taxRateBp: number;
  readonly taxLabour: boolean;
  readonly taxParts: boolean;
  readonly pricesIncludeTax: boolean;
  readonly sundriesBp: number;
  readonly sundriesMaxMinor: number | null;
  readonly minimumMarginBp: number;
  readonly depositBp: number;
}

/** How the shop's quotes round, and until when its prices are good. */
export interface PriceBook {
  readonly roundDownToMinor: number;
  readonly pricesFrom: string | null;
  readonly pricesUntil: string | null;
}

/** A grade of labour, by the code that packages price work at. */
export interface Grade {
  readonly code: string;
  readonly name: string;
  readonly ratePerHourMinor: number;
  readonly costPerHourMinor: number;
  /** False until the shop has entered a rate of its own; absent: it has. */
  readonly rateSet?: boolean;
}

/** A part that an option may need, as it stands. Quantities in thousandths of its unit, costs and prices in ten-thousandths of the currency's. */
export interface QuotePartRow {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly kind: string;
  readonly unit: string;
  readonly family: string;
  readonly sizeMilli: number | null;
  readonly convention: string;
  readonly costE4: number | null;
  readonly priceE4: number | null;
  /** Zero-rated, exempt or outside the scope; absent: as parts are taxed. */
  readonly taxMark?: TaxMark;
  /** The last day its price is good for; null while nobody said. */
  readonly priceUntil: string | null;
  readonly freeMilli: number;
  readonly onOrderMilli: number;
  /** What is on its way for the shelf and no job waits for, the line due first. */
  readonly coming: readonly OnTheWay[];
  readonly leadDays: number | null;
  readonly orderable: boolean;
  /** The part that took its place, where it is made no more; absent: it is made. */
  readonly replacedById?: number | null;
}

/** Everything a quote is computed from, gathered; `computeQuote` asks nothing more. */
export interface QuoteFacts {
  readonly terms: ShopTerms;
  readonly grades: readonly Grade[];
  readonly bands: readonly MarkupBand[];
  readonly discountBp: number;
  readonly discountClass: string;
  readonly priceBook: PriceBook;
  /** What was agreed on this quote beyond its package. */
  readonly agreed: QuoteTerms;
  /** The last day the quote's prices hold. */
  readonly validUntil: string;
  /** Names of the accesses that the job of a variation still has to close: they are opened and paid for already. */
  readonly openings?: readonly string[];
  /** The shop's day on which they were gathered: parts on order are late or not, prices good or not, as of it. Null: of no day. */
  readonly today: string | null;
  /** The recipe of all works together: lib/domain/quoting/composeWorks.ts. */
  readonly recipe: Recipe;
  /** The works in their order; absent where the quote is one package. */
  readonly works?: readonly WorkHead[];
  /** Work of its works that is bought outside. */
  readonly outside?: readonly HandLine[];
  readonly choices: readonly string[];
  readonly conditions: Conditions;
  readonly modelFacts: ModelFacts;
  /** Drawers that the model's jets come from, as its card says; empty or absent: it does not. */
  readonly drawers?: Readonly<Record<"mainJet" | "pilotJet", string>>;
  readonly card: ModelCardFacts;
  readonly carburettors: readonly FoundCarburettor[];
  /** Needle shims of the drawer; absent: nobody looked. */
  readonly shims?: readonly ShimOnHand[];
  /** Needles of stock that options fit, by code, as they were measured. */
  readonly needles?: Readonly<Record<string, NeedleRecord>>;
  /** Positions of the carburettors on the bike, in the same order. */
  readonly positions: readonly number[];
  readonly baseline: Air;
  /** What rides and logs taught about this model; null where nothing is kept. */
  readonly calibration: readonly RegionCorrection[] | null;
  /** What an intake of the bike says that no work has answered yet; absent where there is none. */
  readonly complaints?: readonly Observation[];
  /** True where a setting sheet of this bike says what is fitted. */
  readonly measured: boolean;
  readonly parts: readonly QuotePartRow[];
}
