import type { LineSaid } from "@/lib/domain/pricing/said";
import type { FrozenQuote } from "../documents/quote";

type Public = Pick<
  FrozenQuote,
  | "number"
  | "title"
  | "sentOn"
  | "validUntil"
  | "shop"
  | "bike"
  | "carburettors"
  | "locale"
  | "currency"
  | "pricesIncludeTax"
  | "options"
  | "works"
  | "taxes"
  | "netMinor"
  | "taxMinor"
  | "grossMinor"
  | "depositMinor"
  | "savedMinutes"
  | "savedAgainst"
  | "savedMinor"
  | "minutes"
  | "settings"
  | "cautions"
  | "did"
  | "acknowledgements"
  | "ownTerms"
  | "extras"
  | "taken"
  | "alternatives"
  | "alternative"
>;

/** An extra the customer may add, and what the ones taken so far make of it. */
interface ShownExtra {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly grossMinor: number;
  readonly minutes: number;
  readonly taken: boolean;
  /** Why it cannot be added beside the ones taken; empty where it can. */
  readonly because: string;
}

/** What a customer reads of a quote: what was printed, without reasons, stock or calculations. */
export interface ShownText {
  readonly customerName: string;
  /** The shop's calendar day. */
  readonly today: string;
  readonly printed: Public;
  readonly extras: readonly ShownExtra[];
  readonly lines: readonly {
    readonly key: string;
    readonly work?: string | undefined;
    readonly kind: string;
    readonly name: string;
    /** What of the name is the price engine's own. */
    readonly said?: readonly LineSaid[] | undefined;
    readonly quantityMilli: number;
    readonly unit: string;
    readonly shownMinor: number;
  }[];
}

/** A quote's text without what only the shop may know; no extra is taken yet. */
export function shownText(frozen: FrozenQuote, today: string): ShownText {
  const {
    customer,
    lines,
    steps: _s,
    parts: _p,
    calculation: _c,
    conditions: _k,
    package: _g,
    madeFrom: _m,
    ...printed
  } = frozen;
  return {
    customerName: customer.name,
    today,
    printed,
    extras: (printed.extras ?? []).map((extra) => ({ ...extra, taken: false, because: "" })),
    lines: lines.map(({ key, work, kind, name, quantityMilli, unit, shownMinor, said }) => ({
      key,
      work,
      kind,
      name,
      quantityMilli,
      unit,
      shownMinor,
      said,
    })),
  };
}
