/** Lengths of IBANs in the SWIFT IBAN registry, for the countries of SEPA; from memory, held to the registry's examples in tests. */
const IBAN_LENGTHS: Readonly<Record<string, number>> = {
  AD: 24,
  AT: 20,
  BE: 16,
  BG: 22,
  CH: 21,
  CY: 28,
  CZ: 24,
  DE: 22,
  DK: 18,
  EE: 20,
  ES: 24,
  FI: 18,
  FR: 27,
  GB: 22,
  GI: 23,
  GR: 27,
  HR: 21,
  HU: 28,
  IE: 22,
  IS: 26,
  IT: 27,
  LI: 21,
  LT: 20,
  LU: 20,
  LV: 21,
  MC: 27,
  MT: 31,
  NL: 18,
  NO: 15,
  PL: 28,
  PT: 25,
  RO: 24,
  SE: 24,
  SI: 19,
  SK: 24,
  SM: 27,
  VA: 22,
};

/** True for an IBAN without spaces: its country's length where that is known, and check digits by ISO 13616-1 (ISO/IEC 7064 MOD 97-10). */
export function isIban(iban: string): boolean {
  if (!/^[A-Z]{2}\d{2}[A-Z\d]{11,30}$/u.test(iban)) return false;
  const length = IBAN_LENGTHS[iban.slice(0, 2)];
  if (length !== undefined && iban.length !== length) return false;
  let rest = 0;
  for (const digit of (iban.slice(4) + iban.slice(0, 4)).replace(/[A-Z]/gu, (letter) =>
    String(letter.charCodeAt(0) - 55),
  ))
    rest = (rest * 10 + Number(digit)) % 97;
  return rest === 1;
}

/** True for a business identifier code as ISO 9362 writes it: party 4, country 2, suffix 2, and a branch of 3 or none. It has no check digit. */
export const isBic = (bic: string): boolean => /^[A-Z\d]{4}[A-Z]{2}[A-Z\d]{2}(?:[A-Z\d]{3})?$/u.test(bic);

/** True where the last of a Norwegian account's 11 digits is the check of the others: modulus 11, weights 5432765432 (stdnum agrees). */
export function kontonummerHolds(digits: string): boolean {
  const sum = [...digits.slice(0, -1)].reduce(
    (total, digit, at) => total + Number(digit) * Number("5432765432"[at]),
    0,
  );
  return (11 - (sum % 11)) % 11 === Number(digits.at(-1));
}

/** True where a US routing number's digits, weighted 3 7 1, come to a multiple of ten (American Bankers Association, from memory). */
export const routingHolds = (digits: string): boolean =>
  [...digits].reduce((total, digit, at) => total + Number(digit) * ([3, 7, 1][at % 3] ?? 0), 0) % 10 === 0;

/** The check digit that makes digits hold by modulus 10 (ISO/IEC 7812-1 annex B, the Luhn formula). */
export function mod10(digits: string): string {
  const sum = [...digits].reverse().reduce((total, digit, at) => {
    const doubled = Number(digit) * (at % 2 === 0 ? 2 : 1);
    return total + (doubled > 9 ? doubled - 9 : doubled);
  }, 0);
  return String((10 - (sum % 10)) % 10);
}

const KID_KINDS = { invoice: "1", deposit: "2" } as const;

/**
 * A KID, the Norwegian identification of a payment: which kind of paper, its number in nine digits, and a check digit by modulus 10.
 * Always eleven digits, as is agreed with the bank (Mastercard Payment Services, OCR giro: 2 to 25 digits, modulus 10 or 11; from memory).
 */
export function kidOf(kind: keyof typeof KID_KINDS, number: number): string {
  const digits = KID_KINDS[kind] + String(number).padStart(9, "0");
  return digits + mod10(digits);
}
