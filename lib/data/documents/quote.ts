import type { Conditions } from "@/lib/domain/air/conditions";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import type { PriceLine, TaxSubtotal } from "@/lib/domain/pricing/facts";
import type { Acknowledgement } from "@/lib/domain/quoting/acknowledgements";
import type { HowKnown } from "@/lib/domain/tuning/settings";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";

export interface FrozenOption {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly minutes: number;
  readonly roadUse: boolean;
}

export interface FrozenSetting {
  /** Carburettor position, from 1. */
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly from: number | null;
  readonly how: HowKnown;
}

export interface FrozenPart {
  readonly partId: number | null;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  readonly operation: string | null;
  /** A jet that the step settles; absent for every other part. */
  readonly unsettled?: {
    readonly setting: string;
    readonly family: string;
    readonly carburettors: readonly number[];
  };
}

/** Something the customer may add when accepting, with what it adds by itself. */
export interface FrozenExtra {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly grossMinor: number;
  readonly minutes: number;
}

/** One of the ways a customer may choose from, in short: what differs between them. */
export interface FrozenWay {
  /** A, B or C; empty for the quote as sent where it is none of these. */
  readonly letter: string;
  readonly name: string;
  /** Option keys that the way is computed from. */
  readonly choices: readonly string[];
  readonly options: readonly string[];
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly minutes: number;
  readonly settings: readonly FrozenSetting[];
  /** Lambda over throttle (0 to 1) of the first carburettor; empty where no setting changes. */
  readonly curve: readonly { readonly throttle: number; readonly before: number; readonly after: number }[];
  readonly roadUse: boolean;
  readonly cautions: readonly string[];
}

/** Costs stay out of what a customer is shown. */
export type FrozenLine = Omit<PriceLine, "costMinor">;

/** Everything a sent quote printed, and what accepting it will make. Never changes. */
export interface FrozenQuote {
  readonly format: "throttlewright-quote";
  readonly version: 1;
  readonly number: number;
  readonly revision: number;
  readonly sentOn: string;
  readonly validUntil: string;
  readonly title: string;
  readonly shop: {
    readonly name: string;
    readonly legalName: string;
    readonly taxNumber: string;
    readonly address: string;
    readonly phone: string;
    readonly email: string;
    readonly note: string;
  };
  readonly customer: {
    readonly name: string;
    readonly address: string;
    readonly taxNumber: string;
    readonly business: boolean;
  };
  readonly bike: { readonly name: string; readonly plate: string; readonly frameNumber: string };
  readonly carburettors: readonly string[];
  readonly package: { readonly name: string; readonly revision: number };
  readonly locale: string;
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly options: readonly FrozenOption[];
  readonly lines: readonly FrozenLine[];
  readonly taxes: readonly TaxSubtotal[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly savedMinutes: number;
  readonly savedMinor: number;
  readonly minutes: number;
  readonly steps: readonly PlannedStep[];
  readonly parts: readonly FrozenPart[];
  readonly conditions: Conditions;
  readonly settings: readonly FrozenSetting[];
  /** What the tuning library answered, whole; null where nothing was computed. */
  readonly calculation: TargetSheet | null;
  readonly cautions: readonly string[];
  readonly acknowledgements: readonly Acknowledgement[];
  /** The share off the whole, in basis points, that the quote counts with; absent in earlier texts. */
  readonly discount?: { readonly bp: number; readonly why: string };
  /** Extras the customer may still add; absent where none are offered. */
  readonly extras?: readonly FrozenExtra[];
  /** Names of the extras that the customer added. */
  readonly taken?: readonly string[];
  /** Ways offered to choose from, this one among them; absent where there is no choice. */
  readonly ways?: readonly FrozenWay[];
  /** The way that this text is. */
  readonly way?: { readonly letter: string; readonly name: string };
  /** The revision that was sent, where the customer's choice made this one of it. */
  readonly madeFrom?: number;
}

/** A frozen quote out of the database; only `freeze` writes there. */
export function storedQuote(json: unknown): FrozenQuote {
  const found = json as FrozenQuote | null;
  if (found?.format !== "throttlewright-quote") throw new Error("This is not a frozen quote.");
  return found;
}
