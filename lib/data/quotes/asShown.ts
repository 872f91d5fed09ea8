import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
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
  const [before, after] = other.map((minor) => formatMoney(minor ?? 0, currency, locale));
  const what = shown.name ? `“${shown.name}”` : `Quote ${number}`;
  throw new Refusal(
    `${what} was offered at ${before} and comes to ${after} now, so it was not agreed to.`,
    `The quote as it was sent still stands. For this choice, ask the shop to revise quote ${number} and send it again.`,
    {},
    "conflict",
  );
}
