import { allocate } from "../money/allocate";
import { moneyText } from "../money/format";
import { Refusal } from "../refusal";
import { type CreditableLine, taxGroupOf } from "./creditable";
import type { CreditTake } from "./printed";

/**
 * An amount off the whole of what is left of an invoice, in minor units as it shows prices: over the tax categories and rates by largest
 * remainder, then over each one's lines alike. Lines below zero get none of it. Throws Refusal for more than is left.
 */
export function shareOfWhole(
  left: readonly CreditableLine[],
  minor: number,
  book: { readonly currency: string; readonly locale: string },
): CreditTake[] {
  const all = left.reduce((sum, one) => sum + one.leftMinor, 0);
  const most = Math.max(0, all);
  if (!Number.isSafeInteger(minor) || minor <= 0 || minor > most)
    throw new Refusal(
      `${moneyText(most, book.currency, book.locale)} ${book.currency} is left to be credited, not ${moneyText(minor, book.currency, book.locale)}.`,
      "Credit that much at most.",
      { whole: `At most ${moneyText(most, book.currency, book.locale)}.` },
    );
  const groups = [
    ...Map.groupBy(
      left.filter((one) => one.leftMinor > 0),
      (one) => taxGroupOf(one.line),
    ).values(),
  ];
  const weights = (lines: readonly CreditableLine[]) => lines.map((one) => one.leftMinor);
  const shares = allocate(
    minor,
    groups.map((lines) => weights(lines).reduce((sum, weight) => sum + weight, 0)),
  );
  return groups.flatMap((lines, at) =>
    allocate(shares[at] ?? 0, weights(lines)).flatMap((shownMinor, place) => {
      const key = lines[place]?.line.key;
      return key === undefined || shownMinor === 0 ? [] : [{ key, quantityMilli: 0, shownMinor }];
    }),
  );
}
