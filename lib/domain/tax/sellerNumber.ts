import type { TaxNumberKind } from "./numbers";
import { taxRegime } from "./rates";
import type { RegimeKey } from "./regimes";

/** What the law wants to be read after the seller's number, and of whom. */
export interface NumberMark {
  readonly text: string;
  /** Asked of the shop where the regime does not settle it; empty where it does. */
  readonly question: string;
  readonly source: string;
}

const CHECK = "confirm with your accountant";

/** A shop under this regime charges the tax, so it is in the register that the mark stands for. */
const OF_REGIME: Readonly<Partial<Record<RegimeKey, NumberMark>>> = {
  no: {
    text: "MVA",
    question: "",
    source: `Bokføringsforskriften § 5-1-2: after the organisation number, of sellers in Merverdiavgiftsregisteret; read as the trade reports it, ${CHECK}`,
  },
};

/** Wanted of companies of a country, whether or not they charge tax. */
const OF_COMPANY: Readonly<Partial<Record<string, NumberMark>>> = {
  NO: {
    text: "Foretaksregisteret",
    question:
      "The shop is an AS, an ASA or the branch of a foreign company, registered in Foretaksregisteret",
    source: `Foretaksregisterloven § 10-2 and bokføringsforskriften § 5-1-2: on every sales document of such a company; read as the trade reports it, ${CHECK}`,
  },
};

const KINDS: Readonly<Partial<Record<RegimeKey, TaxNumberKind>>> = {
  au: "abn",
  nz: "ird",
  gb: "gbVat",
  no: "noOrg",
  eu: "euVat",
};

/** Without tax a shop shows the number of the country's business register. */
const WITHOUT_TAX: Readonly<
  Partial<Record<string, { readonly name: string; readonly kind: TaxNumberKind }>>
> = {
  AU: { name: "ABN", kind: "abn" },
  NO: { name: "Organisation number", kind: "noOrg" },
};

/** How a seller's number is called, checked and marked. */
export interface SellerNumberRule {
  readonly name: string;
  /** How its digits are checked; null: not at all. */
  readonly kind: TaxNumberKind | null;
  readonly ofRegime: NumberMark | null;
  /** Only where the shop says that it is registered there. */
  readonly ofCompany: NumberMark | null;
}

/**
 * What the seller's number is called under a regime in a country (ISO 3166-1 alpha-2), how it is checked, and what the law wants
 * after it, with its source. Throws Refusal for an unknown regime.
 */
export function sellerNumberRule(regimeKey: string, country: string): SellerNumberRule {
  const { key, numberName } = taxRegime(regimeKey);
  const own = key === "none" ? WITHOUT_TAX[country] : undefined;
  return {
    name: own?.name ?? numberName,
    kind: own?.kind ?? KINDS[key] ?? null,
    ofRegime: OF_REGIME[key] ?? null,
    ofCompany: OF_COMPANY[country] ?? null,
  };
}

/** What papers say of a seller's number: its name and the words after it, in their order. */
export interface SaidOfNumber {
  readonly numberName: string;
  readonly numberMarks: readonly string[];
}

/** The same for a shop: `inCompanyRegister` is what it says of itself. Throws Refusal for an unknown regime. */
export function saidOfNumber(regimeKey: string, country: string, inCompanyRegister: boolean): SaidOfNumber {
  const { name, ofRegime, ofCompany } = sellerNumberRule(regimeKey, country);
  const marks = [ofRegime, inCompanyRegister ? ofCompany : null];
  return { numberName: name, numberMarks: marks.flatMap((mark) => (mark ? [mark.text] : [])) };
}

/**
 * A number with the words that belong after it, each once: "988 077 917 mva" with MVA is "988 077 917 MVA". Its name, where it was
 * typed before it, is left out. Empty for no number.
 */
export function markedNumber(typed: string, name: string, marks: readonly string[]): string {
  let number = typed.trim();
  for (const mark of [...marks].reverse()) number = cutEnd(number, mark);
  if (name && number.toUpperCase().startsWith(name.toUpperCase())) number = number.slice(name.length).trim();
  return number ? [number, ...marks].join(" ") : "";
}

const cutEnd = (text: string, end: string) =>
  text.toUpperCase().endsWith(end.toUpperCase()) ? text.slice(0, text.length - end.length).trim() : text;
