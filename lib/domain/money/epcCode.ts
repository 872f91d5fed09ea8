import { isIban } from "./checkDigits";
import { minorDigits } from "./currency";

/** A SEPA credit transfer that a bank's app reads off a QR code. */
export interface EpcTransfer {
  readonly name: string;
  /** Without spaces. */
  readonly iban: string;
  /** Empty where the payer's bank finds it by the IBAN, as it does within the EEA. */
  readonly bic: string;
  readonly currency: string;
  readonly amountMinor: number;
  /** What the payer's bank passes on: at most 140 characters are kept. */
  readonly reference: string;
}

const MOST_MINOR = 99_999_999_999;

/** The first valid IBAN in a text, without spaces; null where there is none. Source: ISO 13616-1, check digits by ISO/IEC 7064 MOD 97-10. */
export function ibanIn(text: string): string | null {
  for (const [found] of text.toUpperCase().matchAll(/\b[A-Z]{2}\d{2}(?: ?[A-Z\d]){11,30}/gu)) {
    const plain = found.replaceAll(" ", "");
    for (let length = plain.length; length >= 15; length--) {
      const iban = plain.slice(0, length);
      if (isIban(iban)) return iban;
    }
  }
  return null;
}

/**
 * The text of the QR code for a transfer; null where there is none to make: another currency than EUR, an IBAN that does not hold, nothing to
 * pay. Source: EPC069-12, Quick Response Code: Guidelines to enable data capture for the initiation of a SEPA credit transfer,
 * version 002 (the BIC may stay empty), UTF-8, amounts from 0.01 to 999999999.99.
 */
export function epcCode(transfer: EpcTransfer): string | null {
  const { name, iban, bic, currency, amountMinor, reference } = transfer;
  if (currency !== "EUR" || !isIban(iban) || amountMinor < 1 || amountMinor > MOST_MINOR) return null;
  const unit = 10 ** minorDigits(currency);
  const amount = `${Math.floor(amountMinor / unit)}.${String(amountMinor % unit).padStart(2, "0")}`;
  const line = (text: string, most: number) => text.replace(/\s+/gu, " ").trim().slice(0, most);
  return [
    "BCD",
    "002",
    "1",
    "SCT",
    bic,
    line(name, 70),
    iban,
    `EUR${amount}`,
    "",
    "",
    line(reference, 140),
  ].join("\n");
}
