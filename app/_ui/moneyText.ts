import { minorDigits } from "@/lib/domain/money/currency";
import { moneyText as plainMoney } from "@/lib/domain/money/format";
import { numberFormat, trueMinus } from "./format";

// Apart from the other formats: the currencies and what they are reckoned by are brought to pages that show money alone.

/** Integer minor units as an exact decimal text: -6195 with 2 digits is "-61.95". */
function minorText(minor: number, digits: number): string {
  const all = String(Math.abs(minor)).padStart(digits + 1, "0");
  const whole = all.slice(0, all.length - digits);
  return `${minor < 0 ? "-" : ""}${whole}${digits > 0 ? `.${all.slice(-digits)}` : ""}`;
}

/** Money by locale, from minor units. The code is said only when asked for. */
export function moneyText(minor: number, currency: string, locale: string, code = false): string {
  if (!code) return plainMoney(minor, currency, locale);
  const digits = minorDigits(currency);
  const format = numberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    style: "currency",
    currency,
    currencyDisplay: "code",
  });
  return trueMinus(format.formatToParts(minorText(minor, digits) as Intl.StringNumericLiteral));
}
