import { minorPerMajor } from "./currency";
import { exactly, type Numeric, product, quotient } from "./exact";
import { roundHalfAway } from "./round";

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
  const price = exactly(line.price);
  if (price.over < 0n) throw new Error("An item price is never negative (EN 16931 BR-27).");
  const exact = quotient(product(price, line.quantity, minorPerMajor(currency)), line.baseQuantity ?? 1);
  return roundHalfAway(exact) - (line.allowancesMinor ?? 0) + (line.chargesMinor ?? 0);
}
