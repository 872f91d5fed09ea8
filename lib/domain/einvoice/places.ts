import type { EinvoiceProfile } from "../invoices/printedEinvoice";
import type { TaxNumberKind } from "../tax/numbers";

/** How businesses of a country are known on e-invoices. */
export interface Place {
  /** ISO 3166-1 alpha-2. */
  readonly country: string;
  readonly name: string;
  /** ISO 6523 code of the register's number, which is a code of the EAS list too. */
  readonly scheme: string;
  /** What the number is called. */
  readonly number: string;
  /** How its digits are checked; absent: by their form alone. */
  readonly checked?: TaxNumberKind;
  readonly form: RegExp;
}

const place = (
  country: string,
  name: string,
  scheme: string,
  number: string,
  form: RegExp,
  checked?: TaxNumberKind,
): Place => ({ country, name, scheme, number, form, ...(checked ? { checked } : {}) });

/**
 * Sources: Peppol code list of participant identifier schemes (EAS), from memory; the schemes of AU and NZ are those that PINT A-NZ
 * demands (aligned-ibr-001-aunz, -002-aunz). Where a country has no register's scheme there, it is the VAT number's.
 */
export const PLACES: readonly Place[] = [
  place("AU", "Australia", "0151", "ABN", /^\d{11}$/u, "abn"),
  place("NZ", "New Zealand", "0088", "NZBN", /^\d{13}$/u, "nzbn"),
  place("NO", "Norway", "0192", "Organisation number", /^\d{9}$/u, "noOrg"),
  place("SE", "Sweden", "0007", "Organisation number", /^\d{10}$/u),
  place("DK", "Denmark", "0184", "CVR number", /^DK\d{8}$/u),
  place("FI", "Finland", "0216", "OVT code", /^0037\d{8,13}$/u),
  place("NL", "Netherlands", "0106", "KVK number", /^\d{8}$/u),
  place("FR", "France", "0009", "SIRET", /^\d{14}$/u),
  place("DE", "Germany", "9930", "VAT number", /^DE\d{9}$/u),
  place("IE", "Ireland", "9935", "VAT number", /^IE[0-9A-Z+*]{8,9}$/u),
  place("GB", "United Kingdom", "9932", "VAT number", /^GB(?:\d{9}|\d{12})$/u),
  place("CH", "Switzerland", "0183", "UID", /^CHE\d{9}$/u),
  place("AT", "Austria", "9914", "VAT number", /^ATU\d{8}$/u),
  place("BE", "Belgium", "0208", "Enterprise number", /^[01]\d{9}$/u),
  place("ES", "Spain", "9920", "VAT number", /^ES[0-9A-Z]{9}$/u),
  place("IT", "Italy", "0211", "VAT number", /^IT\d{11}$/u),
  place("LU", "Luxembourg", "9938", "VAT number", /^LU\d{8}$/u),
  place("PL", "Poland", "9945", "VAT number", /^PL\d{10}$/u),
  place("PT", "Portugal", "9946", "VAT number", /^PT\d{9}$/u),
];

const OCEANIA: readonly string[] = ["AU", "NZ"];

/** A country that e-invoices are known for; null for another one. */
export const placeOf = (country: string): Place | null =>
  PLACES.find((place) => place.country === country) ?? null;

/** The rules of an e-invoice from a seller of one country to a buyer of another, by ISO 3166-1 code. */
export function profileOf(seller: string, buyer: string): EinvoiceProfile {
  const oceania = [seller, buyer].filter((country) => OCEANIA.includes(country)).length;
  if (oceania === 2) return "pint";
  return oceania === 0 && placeOf(seller) && placeOf(buyer) ? "peppol" : "core";
}

/** How a document says which rules it keeps to (BT-24, BT-23), and what the tax is called in it. */
export const PROFILES: Readonly<
  Record<EinvoiceProfile, { readonly customization: string; readonly process: string; readonly tax: string }>
> = {
  // PINT A-NZ billing 1.1.3: aligned-ibrp-001-aunz, aligned-ibrp-002, aligned-ibrp-050-aunz.
  pint: {
    customization: "urn:peppol:pint:billing-1@aunz-1",
    process: "urn:peppol:bis:billing",
    tax: "GST",
  },
  // Peppol BIS Billing 3.0: PEPPOL-EN16931-R004 and R007, from memory.
  peppol: {
    customization: "urn:cen.eu:en16931:2017#compliant#urn:fdc:peppol.eu:2017:poacc:billing:3.0",
    process: "urn:fdc:peppol.eu:2017:poacc:billing:01:1.0",
    tax: "VAT",
  },
  core: { customization: "urn:cen.eu:en16931:2017", process: "", tax: "VAT" },
};
