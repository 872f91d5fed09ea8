import { Refusal } from "../refusal";
import { minorDigits } from "./currency";
import { majorText } from "./major";

const formats = new Map<string, Intl.NumberFormat>();

function formatOf(currency: string, locale: string): Intl.NumberFormat {
  const key = `${locale} ${currency}`;
  const known = formats.get(key);
  if (known) return known;
  const digits = minorDigits(currency);
  try {
    const made = new Intl.NumberFormat(locale, {
      style: "currency",
      currency,
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
    });
    formats.set(key, made);
    return made;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new Refusal(
      `"${locale}" is no language and region.`,
      "Choose one such as en-AU or nb-NO in the shop's settings.",
    );
  }
}

/**
 * An amount as people of the locale read it: formatMoney(123450, "AUD", "en-AU") is "$1,234.50".
 * Display only: the digits come from ISO 4217, and the exact decimal text is handed to Intl, never a float.
 * Throws Refusal for an unknown currency or locale.
 */
export function formatMoney(minor: number, currency: string, locale: string): string {
  return formatOf(currency, locale).format(majorText(minor, currency) as `${number}`);
}

const plain = new Map<string, Intl.NumberFormat>();

/** An exact decimal text with the marks of a locale and a true minus sign. Throws Refusal for an unknown locale. */
export function marked(exact: string, locale: string): string {
  const at = exact.indexOf(".");
  const digits = at < 0 ? 0 : exact.length - at - 1;
  const key = `${locale} ${digits}`;
  let made = plain.get(key);
  if (!made) {
    formatOf("EUR", locale);
    made = new Intl.NumberFormat(locale, {
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
    });
    plain.set(key, made);
  }
  return made
    .formatToParts(exact as `${number}`)
    .map((part) => (part.type === "minusSign" ? "\u2212" : part.value))
    .join("");
}

/**
 * An amount in minor units as screens, reasons and refusals write it: the locale's marks, the digits of ISO 4217, no currency
 * sign. moneyText(123450, "AUD", "en-AU") is "1,234.50". Throws Refusal for an unknown currency or locale.
 */
export function moneyText(minor: number, currency: string, locale: string): string {
  return marked(majorText(minor, currency), locale);
}

/** The decimal mark and the grouping mark of a locale, as Intl shows them. Throws Refusal for an unknown locale. */
export function marksOf(locale: string): { readonly decimal: string; readonly group: string } {
  const parts = formatOf("EUR", locale).formatToParts(1234567.5);
  const mark = (type: "decimal" | "group") => parts.find((p) => p.type === type)?.value ?? "";
  return { decimal: mark("decimal"), group: mark("group") };
}
