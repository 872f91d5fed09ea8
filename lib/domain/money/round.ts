import { Decimal as Base } from "decimal.js";
import { Refusal } from "../refusal";

/**
 * Decimal arithmetic for money: 60 significant digits, so that a product of safe integers is exact and a quotient is
 * never mistaken for a half. ROUND_HALF_UP of decimal.js rounds halves away from zero.
 */
export const Decimal = Base.clone({ precision: 60, rounding: Base.ROUND_HALF_UP });
export type Decimal = InstanceType<typeof Decimal>;
export type Numeric = Base.Value;

/**
 * Rounds to a whole number, halves away from zero (-1.5 -> -2), so that a credit note mirrors its invoice.
 * Source: EN 16931-1, rounding of amounts; judgement for the direction of negative halves.
 * Throws Refusal when the result is not finite or not exact as a number.
 */
export function roundHalfAway(value: Numeric): number {
  const whole = new Decimal(value).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
  if (!Number.isSafeInteger(whole)) {
    throw new Refusal(
      `The amount ${String(value)} is too large to keep to the cent.`,
      "Check the quantity and the price.",
    );
  }
  return whole === 0 ? 0 : whole;
}

/** Rounds to a multiple of `step` (a positive whole number), halves away from zero. */
export function roundToStep(value: number, step: number): number {
  return roundHalfAway(new Decimal(value).div(step)) * step || 0;
}

const BP = 10_000;

/** `bp` basis points of an amount in minor units, rounded half away from zero: percent(1000, 250) is 25. */
export function percent(minor: number, bp: number): number {
  return roundHalfAway(new Decimal(minor).mul(bp).div(BP));
}

/** What part `part` is of `whole`, in basis points rounded half away from zero. Throws Refusal when `whole` is 0. */
export function basisPoints(part: number, whole: number): number {
  if (whole === 0)
    throw new Refusal("A share of nothing was asked for.", "Enter an amount that is not zero.");
  return roundHalfAway(new Decimal(part).mul(BP).div(whole));
}
