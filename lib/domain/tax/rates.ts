import { Refusal, within } from "../refusal";
import { type RegimeKey, TAX_REGIMES, type TaxedKind, type TaxRegime } from "./regimes";

/** What a shop enters about its tax; only read where the regime leaves it open. */
export interface ShopRates {
  /** Basis points, may carry a fraction: 887.5 is 8.875 %. State and local together. */
  readonly standardBp?: number;
  /** Kinds of line that are not taxed are false; a kind left out is taxed. */
  readonly taxed?: Readonly<Partial<Record<TaxedKind, boolean>>>;
}

/** What a shop's settings say of its tax. `taxRateBp` in basis points. */
export const ratesOf = (settings: {
  readonly taxRateBp: number;
  readonly taxLabour: boolean;
  readonly taxParts: boolean;
}) => ({
  standardBp: settings.taxRateBp,
  taxed: { labour: settings.taxLabour, part: settings.taxParts },
});

/** How a part or a line is taxed where that is not as its kind is; empty: as its kind. Codes of UNCL5305. */
export type TaxMark = "" | "Z" | "E" | "O";
const TAX_MARKS: readonly TaxMark[] = ["", "Z", "E", "O"];

/** A kept mark; whatever is none counts as no mark. */
export const taxMark = (kept: string | undefined): TaxMark => TAX_MARKS.find((mark) => mark === kept) ?? "";

/** How one line is taxed. `category` is a code of UNCL5305 as EN 16931 uses it: S, Z, E or O. */
export interface LineTax {
  readonly category: "S" | "Z" | "E" | "O";
  readonly rateBp: number;
  readonly name: string;
}

/** A regime by its key. Throws Refusal for an unknown one. */
export function taxRegime(key: string): TaxRegime {
  const found = TAX_REGIMES.find((r) => r.key === key);
  if (!found)
    throw new Refusal(
      `"${key}" is no tax regime known here.`,
      "Choose the tax regime in the shop's settings.",
    );
  return found;
}

const percentText = (bp: number) => `${Number((bp / 100).toPrecision(12))} %`;

/** "GST 10 %": a tax's name with its rate in basis points; the name alone for 0. */
export function taxText(name: string, rateBp: number): string {
  return rateBp ? `${name} ${percentText(rateBp)}` : name;
}

function shopRate(regime: TaxRegime, rates: ShopRates): number {
  if (regime.standardBp !== null) return regime.standardBp;
  if (rates.standardBp === undefined) {
    throw new Refusal(
      `The tax rate for "${regime.name}" is not entered.`,
      "Enter it in the shop's settings, 0 for none.",
    );
  }
  within("tax rate", rates.standardBp / 100, 0, 50, "%");
  return rates.standardBp;
}

/**
 * The name of a tax group on a document: "GST 10 %" for the taxed, "No GST" for the rest.
 * Throws Refusal for an unknown regime.
 */
export function taxNameOf(regimeKey: string, category: string, rateBp: number): string {
  const { key, taxName, flagged } = taxRegime(regimeKey);
  if (key === "none") return taxName;
  if (category === "S") return taxText(taxName, rateBp);
  if (category === "Z") return `${taxName} 0 %`;
  if (flagged) return `No ${taxName}`;
  return category === "O" ? `Outside the scope of ${taxName}` : `Exempt from ${taxName}`;
}

/**
 * How a line of a kind is taxed: { category, rateBp, name }.
 * S: the standard or entered rate. Z: an entered rate of 0 in the EU. E: a kind the shop marked as not taxed.
 * O: no tax at all on the document. `marked` is what the shop marked the line as: zero-rated (Z), exempt (E) or outside the tax's
 * scope (O), each at 0 in every regime that taxes at all. EN 16931 BR-O-11 lets O stand with no other category on an electronic
 * invoice; on paper a line outside the scope may stand among others.
 * Throws Refusal for an unknown regime or a rate that is missing or outside 0 to 50 %.
 */
export function taxFor(
  regimeKey: RegimeKey | string,
  kind: TaxedKind,
  rates: ShopRates = {},
  marked: TaxMark = "",
): LineTax {
  const regime = taxRegime(regimeKey);
  const shopBp = shopRate(regime, rates);
  if (marked !== "" && shopBp > 0)
    return { category: marked, rateBp: 0, name: taxNameOf(regime.key, marked, 0) };
  const untaxed = shopBp > 0 && regime.flagged && rates.taxed?.[kind] === false;
  const category = untaxed ? "E" : shopBp > 0 ? "S" : regime.key === "eu" ? "Z" : "O";
  const rateBp = untaxed ? 0 : shopBp;
  return { category, rateBp, name: taxNameOf(regime.key, category, rateBp) };
}
