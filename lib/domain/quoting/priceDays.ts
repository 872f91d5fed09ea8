import { dayWords } from "../schedule/days";
import type { QuoteFacts } from "./facts";
import type { QuoteWarning } from "./result";

/** Of the parts that a quote prices by the line (their codes are lines' keys): whose price runs out before the quote does, or has. */
export function priceDayWarnings(facts: QuoteFacts, lineKeys: readonly string[]): QuoteWarning[] {
  const { validUntil, today, terms } = facts;
  return facts.parts.flatMap(({ id, code, name, priceUntil }): QuoteWarning[] => {
    if (priceUntil === null || priceUntil >= validUntil || !lineKeys.includes(code)) return [];
    const until = dayWords(priceUntil, terms.locale);
    const over = today !== null && priceUntil < today;
    return [
      {
        message: over
          ? `The price of ${name} (${code}) was good until ${until} and has run out.`
          : `The price of ${name} (${code}) is good until ${until}; this quote is valid until ${dayWords(validUntil, terms.locale)}.`,
        remedy: over
          ? "Ask what it costs now, then enter the price and its new last day."
          : "Make the quote valid until that day only, or ask how long the price holds and enter it.",
        stops: false,
        partId: id,
      },
    ];
  });
}
