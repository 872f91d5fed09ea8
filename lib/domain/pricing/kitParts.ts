import { allocate } from "../money/allocate";
import { Decimal } from "../money/decimal";
import { roundHalfAway } from "../money/round";
import type { KitMark, PartFact } from "./facts";
import type { PriceRules } from "./lines";
import { partLine } from "./partLines";

/**
 * The parts of an opened kit at its set price, in minor units as the shop shows prices: each with its share, in proportion to what its
 * quantity would cost by itself (equal shares where none of them has a price), by largest remainder, so that the lines add up to the
 * price. Throws as partLine does.
 */
export function atKitPrice(
  parts: readonly PartFact[],
  { code, name, priceMinor }: KitMark & { readonly priceMinor: number },
  book: PriceRules,
): PartFact[] {
  if (parts.length === 0) return [];
  const own = parts.map((part) => partLine(part, book).line.shownMinor);
  const shares = allocate(priceMinor, own.some((minor) => minor > 0) ? own : own.map(() => 1));
  return parts.map((part, at) => ({ ...part, kit: { code, name, amountMinor: shares[at] ?? 0 } }));
}

/**
 * What is charged of a part's share where only some of it was used: all of the share for all of the quantity, in proportion below,
 * rounded once. Quantities in thousandths, `usedMilli` from 0 to the quantity.
 */
export function shareUsed(amountMinor: number, quantityMilli: number, usedMilli: number): number {
  if (usedMilli >= quantityMilli) return amountMinor;
  return roundHalfAway(new Decimal(amountMinor).mul(usedMilli).div(quantityMilli));
}
