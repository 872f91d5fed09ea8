import type { SchemedId } from "../invoices/printedEinvoice";
import { Refusal } from "../refusal";
import { type TaxNumberKind, taxNumber } from "../tax/numbers";
import { PLACES, type Place, placeOf } from "./places";

const GLN = "0088";

/** Without the spaces, dots and dashes that people write numbers with, in capitals. */
const bare = (typed: string): string => typed.toUpperCase().replace(/[\s.\-/]/gu, "");

/**
 * A number of a scheme (ISO 6523 or EAS code) as e-invoices write it: schemedId("0151", "51 824 753 556") is
 * { scheme: "0151", id: "51824753556" }. ABN, NZBN and Norwegian organisation numbers are checked by their digits, a GLN by its own,
 * numbers of other schemes by their form where it is known. Throws Refusal for a wrong one.
 */
export function schemedId(scheme: string, typed: string): SchemedId {
  if (scheme === GLN) return { scheme, id: gln(typed) };
  const place = PLACES.find((one) => one.scheme === scheme);
  return { scheme, id: place ? numberOf(place, typed) : freely(typed) };
}

/**
 * The number of a country's register, with its scheme; without one where it is the VAT number, whose codes (99..) are of the EAS list
 * alone (BR-CL-11). Throws Refusal for a wrong one.
 */
export function registerId(country: string, typed: string): SchemedId {
  const place = placeOf(country);
  if (!place) return { scheme: "", id: freely(typed) };
  return { scheme: place.scheme.startsWith("99") ? "" : place.scheme, id: numberOf(place, typed) };
}

function numberOf(place: Place, typed: string): string {
  if (place.checked) return taxNumber(place.checked, typed);
  const text = bare(typed);
  const whole =
    place.number === "VAT number" || place.country === "DK" ? withCountry(place.country, text) : text;
  if (!place.form.test(whole))
    throw new Refusal(
      `"${typed}" is no ${place.number} of ${place.name}.`,
      "Check it against the register, or leave it empty.",
    );
  return whole;
}

const withCountry = (country: string, text: string) =>
  text.startsWith(country) ? text : `${country}${text}`;

function freely(typed: string): string {
  const text = typed.trim();
  if (!/^[0-9A-Za-z:+*.@_-]{1,50}$/u.test(text))
    throw new Refusal(`"${typed}" is no identifier.`, "It has letters, digits and no spaces, at most 50.");
  return text;
}

/** A GLN: 13 digits, the last one checks them. Source: GS1 General Specifications, check digit. */
function gln(typed: string): string {
  const text = bare(typed);
  const sum = [...text].reduce((total, digit, at) => total + Number(digit) * (at % 2 === 0 ? 1 : 3), 0);
  if (!/^\d{13}$/u.test(text) || sum % 10 !== 0)
    throw new Refusal(
      `"${typed}" is no GLN or NZBN: a digit is wrong or missing.`,
      "It has 13 digits, such as 94 29999 99999 6.",
    );
  return text;
}

const VAT: Readonly<Record<string, TaxNumberKind>> = { AU: "abn", NZ: "ird", NO: "noOrg", GB: "gbVat" };

/**
 * A tax number as e-invoices write it, by the country's code: with the country before it in Europe (BR-CO-09), and with MVA after it in
 * Norway; as it is elsewhere, and where it is no number of that country. Empty stays empty.
 * Source: EN 16931-1 BT-31 and BR-CO-09; the MVA of Norway from memory (Peppol BIS Billing 3, rules for Norway).
 */
export function taxIdOf(country: string, typed: string): string {
  if (typed.trim() === "") return "";
  const kind = VAT[country];
  const text = bare(typed);
  const right = kind ? tried(kind, typed) : text;
  if (right === null) return text;
  if (country === "NO") return `NO${right}MVA`;
  if (country === "AU" || country === "NZ" || !placeOf(country)) return right;
  return withCountry(country, right);
}

function tried(kind: TaxNumberKind, typed: string): string | null {
  try {
    return taxNumber(kind, typed);
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
