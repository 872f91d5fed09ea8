import { minorPerMajor } from "./currency";
import { Decimal, type Numeric, roundHalfAway } from "./round";

/** A line before its net amount is known. Prices in major units; quantities in units; the rest in minor units. */
export interface LineInput {
  readonly quantity: Numeric;
  /** Item net price (BT-146), never negative, any number of decimals. */
  readonly price: Numeric;
  /** Units that the price is for (BT-149); 1 unless given. */
  readonly baseQuantity?: Numeric;
  readonly allowancesMinor?: number;
  readonly chargesMinor?: number;
}

/**
 * Line net amount (BT-131) in minor units: price / base quantity x quantity, rounded by itself, less allowances, plus
 * charges. Source: EN 16931-1, BT-131. A price below zero is a bug of the caller: BR-27 forbids it.
 */
export function lineNet(line: LineInput, currency: string): number {
  const price = new Decimal(line.price);
  if (price.isNegative() && !price.isZero())
    throw new Error("An item price is never negative (EN 16931 BR-27).");
  const exact = price
    .mul(line.quantity)
    .mul(minorPerMajor(currency))
    .div(line.baseQuantity ?? 1);
  return roundHalfAway(exact) - (line.allowancesMinor ?? 0) + (line.chargesMinor ?? 0);
}
