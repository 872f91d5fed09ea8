import { minorDigits } from "@/lib/domain/money/currency";
import { marksOf } from "@/lib/domain/money/format";

export const currencyDigits = (currency: string) => minorDigits(currency);

/** An amount as one would type it into a field: no sign, no grouping, the locale's decimal mark. */
export function plainAmount(minor: number, digits: number, locale: string): string {
  const text = String(Math.abs(minor)).padStart(digits + 1, "0");
  const whole = text.slice(0, text.length - digits);
  return digits === 0 ? whole : `${whole}${marksOf(locale).decimal}${text.slice(-digits)}`;
}
