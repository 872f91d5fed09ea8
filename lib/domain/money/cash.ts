import { Refusal } from "../refusal";
import { roundToStep } from "./round";

/** What a cash payment comes to: the rounded amount and the rounding itself (EN 16931 BT-114). */
export interface CashRounding {
  readonly payableMinor: number;
  /** Payable less due; may be negative. */
  readonly roundingMinor: number;
}

/**
 * Rounds a due amount to the smallest coin, chosen per payment and never part of the tax: 9.82 -> 9.80, 9.83 -> 9.85
 * with 5 cents. `stepMinor` is the coin in minor units: 5 (AU), 10 (NZ), 100 (NO, one krone), 1 for none.
 * An exact half goes away from zero; NZ leaves 5 cents against 10 to the shop (Reserve Bank of NZ, from memory).
 * Throws Refusal for a step that is no whole number above zero.
 */
export function cashRounding(dueMinor: number, stepMinor: number): CashRounding {
  if (!Number.isSafeInteger(stepMinor) || stepMinor < 1) {
    throw new Refusal(`${stepMinor} is no coin.`, "Set the smallest coin in whole minor units, 1 for none.");
  }
  const payableMinor = roundToStep(dueMinor, stepMinor);
  return { payableMinor, roundingMinor: payableMinor - dueMinor };
}
