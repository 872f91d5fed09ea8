import { Refusal } from "../refusal";
import { exactly, type Numeric, nearest, product, quotient, tooLarge } from "./exact";

/**
 * Rounds to a whole number, halves away from zero (-1.5 -> -2), so that a credit note mirrors its invoice.
 * Source: EN 16931-1, rounding of amounts; judgement for the direction of negative halves.
 * Throws Refusal when the result is not finite or not exact as a number.
 */
export function roundHalfAway(value: Numeric): number {
  const whole = Number(nearest(exactly(value)));
  if (!Number.isSafeInteger(whole)) throw tooLarge(value);
  return whole;
}

/** Rounds to a multiple of `step` (a positive whole number), halves away from zero. */
export function roundToStep(value: number, step: number): number {
  return roundHalfAway(quotient(value, step)) * step || 0;
}

const BP = 10_000;

/** `bp` basis points of an amount in minor units, rounded half away from zero: percent(1000, 250) is 25. */
export function percent(minor: number, bp: number): number {
  return roundHalfAway(quotient(product(minor, bp), BP));
}

/** What part `part` is of `whole`, in basis points rounded half away from zero. Throws Refusal when `whole` is 0. */
export function basisPoints(part: number, whole: number): number {
  if (whole === 0)
    throw new Refusal("A share of nothing was asked for.", "Enter an amount that is not zero.");
  return roundHalfAway(quotient(product(part, BP), whole));
}
