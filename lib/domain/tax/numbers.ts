import { Refusal } from "../refusal";

/** Kinds of tax and business numbers that can be checked by arithmetic. */
export type TaxNumberKind = "abn" | "ird" | "gbVat" | "noOrg" | "nzbn" | "euVat";

const digitsOf = (text: string) => [...text].map(Number);
const weighted = (digits: readonly number[], weights: readonly number[]) =>
  weights.reduce((sum, w, at) => sum + w * (digits[at] ?? 0), 0);

/** Australian Business Number: 11 digits, first less 1, weighted sum divisible by 89. Source: Australian Business Register. */
function isAbn(text: string): boolean {
  if (!/^[1-9]\d{10}$/u.test(text)) return false;
  const digits = digitsOf(text);
  return (
    weighted([(digits[0] ?? 0) - 1, ...digits.slice(1)], [10, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19]) % 89 === 0
  );
}

/** New Zealand IRD number: 10 000 000 to 200 000 000, modulus 11 with a second set of weights. Source: Inland Revenue, from memory. */
function isIrd(text: string): boolean {
  if (!/^\d{8,9}$/u.test(text) || Number(text) < 10_000_000 || Number(text) > 200_000_000) return false;
  const digits = digitsOf(text.padStart(9, "0"));
  const first = (11 - (weighted(digits, [3, 2, 7, 6, 5, 4, 3, 2]) % 11)) % 11;
  const check = first === 10 ? (11 - (weighted(digits, [7, 4, 3, 2, 5, 2, 7, 6]) % 11)) % 11 : first;
  return check === digits[8];
}

/** UK VAT number: 9 digits (12 with a branch), weighted sum modulo 97; newer ones leave 42 or 55. Source: HMRC, from memory. */
function isGbVat(text: string): boolean {
  if (!/^(?:\d{9}|\d{12})$/u.test(text) || /^0{7}/u.test(text)) return false;
  const rest = weighted(digitsOf(text), [8, 7, 6, 5, 4, 3, 2, 10, 1]) % 97;
  return rest === 0 || (Number(text.slice(0, 3)) >= 100 && (rest === 42 || rest === 55));
}

/** Norwegian organisation number: 9 digits, modulus 11. Source: Brønnøysundregistrene, from memory. */
function isNoOrg(text: string): boolean {
  if (!/^\d{9}$/u.test(text)) return false;
  return weighted(digitsOf(text), [3, 2, 7, 6, 5, 4, 3, 2, 1]) % 11 === 0;
}

/** New Zealand Business Number: a GS1 number of 13 digits beginning 94. Source: GS1 General Specifications, check digit. */
function isNzbn(text: string): boolean {
  return (
    /^94\d{11}$/u.test(text) && weighted(digitsOf(text), [1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1]) % 10 === 0
  );
}

interface NumberRule {
  readonly name: string;
  readonly strip: RegExp;
  readonly valid: (text: string) => boolean;
  readonly example: string;
}

const RULES: Readonly<Record<TaxNumberKind, NumberRule>> = {
  abn: { name: "ABN", strip: /^ABN/u, valid: isAbn, example: "51 824 753 556" },
  ird: { name: "IRD number", strip: /^NZ/u, valid: isIrd, example: "49-091-850" },
  gbVat: { name: "UK VAT number", strip: /^GB/u, valid: isGbVat, example: "GB 980 7806 84" },
  noOrg: {
    name: "Norwegian organisation number",
    strip: /^NO|(?:MVA|FORETAKSREGISTERET)+$/gu,
    valid: isNoOrg,
    example: "988 077 917",
  },
  nzbn: { name: "NZBN", strip: /^NZBN/u, valid: isNzbn, example: "94 29999 99999 6" },
  euVat: {
    name: "EU VAT number",
    strip: /^$/u,
    // The form only: each country has a check of its own. Source: Directive 2006/112/EC art. 215, country prefix.
    valid: (text) => /^[A-Z]{2}[0-9A-Z+*]{2,12}$/u.test(text),
    example: "IE 1234567 A",
  },
};

/**
 * A tax or business number without spaces, dashes and prefix, checked by its own arithmetic: taxNumber("abn",
 * "51 824 753 556") is "51824753556". A right check digit does not prove that the number is in use.
 * Throws Refusal for a wrong one.
 */
export function taxNumber(kind: TaxNumberKind, typed: string): string {
  const rule = RULES[kind];
  const text = typed
    .toUpperCase()
    .replace(/[\s.\-/]/gu, "")
    .replace(rule.strip, "");
  if (!rule.valid(text)) {
    throw new Refusal(
      `"${typed}" is no valid ${rule.name}: a digit is wrong or missing.`,
      `Check it against the certificate; it looks like ${rule.example}.`,
    );
  }
  return text;
}
