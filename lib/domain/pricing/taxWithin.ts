import { Decimal } from "../money/decimal";
import { roundHalfAway } from "../money/round";

/** How a price is kept: with tax in it, or without. */
export type KeptAlternative = "with tax" | "without tax";

/**
 * A kept price turned to the other way, so that what the customer pays stays the same: times 1 + rate to put the tax in, divided by
 * it to take the tax out. Whole units of whatever scale the price has, rounded once, half away from zero.
 */
export function turned(price: number, rateBp: number, to: KeptAlternative): number {
  const factor = new Decimal(10_000).add(rateBp).div(10_000);
  const exact = new Decimal(price);
  return roundHalfAway(to === "with tax" ? exact.mul(factor) : exact.div(factor));
}
