import { formatMoney } from "@/lib/domain/money/format";
import { SaidRefusal } from "@/lib/words/refusal";
import type { FrozenQuote } from "../documents/quote";

interface Amounts {
  readonly grossMinor: number;
  readonly depositMinor?: number;
}

/**
 * Refuses a choice whose kept facts come to another amount than was printed when the quote was sent: since then the product
 * reckons otherwise. Nobody agrees to a price that they were not shown, and none is changed without a word.
 */
export function demandAsShown(
  { number, currency, locale }: Pick<FrozenQuote, "number" | "currency" | "locale">,
  shown: Amounts & { readonly name?: string },
  now: Amounts,
): void {
  const pairs = [
    [shown.grossMinor, now.grossMinor],
    [shown.depositMinor, now.depositMinor],
  ] as const;
  const other = pairs.find(
    ([before, after]) => before !== undefined && after !== undefined && before !== after,
  );
  if (!other) return;
  const [before = "", after = ""] = other.map((minor) => formatMoney(minor ?? 0, currency, locale));
  throw shown.name
    ? new SaidRefusal("offeredAt", { name: shown.name, before, after }, "offeredAtDo", "conflict")
    : new SaidRefusal("quoteOfferedAt", { number: String(number), before, after }, "offeredAtDo", "conflict");
}
