import { Refusal } from "../refusal";
import { minorDigits } from "./currency";
import { type Numeric, product } from "./exact";
import { roundHalfAway } from "./round";

/** An amount: whole minor units and an ISO 4217 code. */
export interface Money {
  readonly minor: number;
  readonly currency: string;
}

/** Makes an amount; refuses a fraction of a minor unit and an unknown currency. */
export function money(minor: number, currency: string): Money {
  minorDigits(currency);
  if (!Number.isSafeInteger(minor)) {
    throw new Refusal(`${minor} is no whole number of minor units.`, "Round the amount first.");
  }
  return { minor: minor || 0, currency };
}

/** The sum of two amounts of one currency; refuses two currencies. */
export function add(a: Money, b: Money): Money {
  if (a.currency !== b.currency) {
    throw new Refusal(
      `${a.currency} and ${b.currency} cannot be added.`,
      "Keep one document in one currency.",
    );
  }
  return money(a.minor + b.minor, a.currency);
}

/** An amount times a number, rounded once, half away from zero. */
export function multiply(amount: Money, factor: Numeric): Money {
  return money(roundHalfAway(product(amount.minor, factor)), amount.currency);
}

/** The same amount with the other sign. */
export function negate(amount: Money): Money {
  return money(0 - amount.minor, amount.currency);
}
