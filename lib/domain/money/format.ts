import { Refusal } from "../refusal";
import { minorDigits } from "./currency";
import { majorText } from "./scale";

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

/** The decimal mark and the grouping mark of a locale, as Intl shows them. Throws Refusal for an unknown locale. */
export function marksOf(locale: string): { readonly decimal: string; readonly group: string } {
  const parts = formatOf("EUR", locale).formatToParts(1234567.5);
  const mark = (type: "decimal" | "group") => parts.find((p) => p.type === type)?.value ?? "";
  return { decimal: mark("decimal") || ".", group: mark("group") };
}
