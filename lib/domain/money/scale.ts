import { minorDigits, minorPerMajor } from "./currency";
import { exactly, type Numeric, product, quotient } from "./exact";
import { pointed } from "./major";
import { roundHalfAway } from "./round";

/** Unit prices are kept in ten-thousandths of the major currency unit, quantities in thousandths of the unit. */
const E4 = 10_000;
const E4_PLACES = 4;
export const MILLI = 1_000;

/** A unit price in E4 times a quantity in thousandths, in minor units, rounded once half away from zero. */
export function amountOf(unitPriceE4: Numeric, quantityMilli: Numeric, currency: string): number {
  return roundHalfAway(quotient(product(unitPriceE4, quantityMilli, minorPerMajor(currency)), E4 * MILLI));
}

/** An amount in minor units as E4 of the major unit: 1234 AUD cents are 123400. */
export function e4OfMinor(minor: number, currency: string): number {
  return roundHalfAway(quotient(product(minor, E4), minorPerMajor(currency)));
}

/** An E4 price in major units with the currency's digits, or as many more as it needs: "0.0125". */
export function priceText(priceE4: number, currency: string): string {
  const { over, under } = exactly(priceE4 || 0);
  // A number's fraction is over a power of ten.
  const [whole = "", places = ""] = pointed(over, E4_PLACES + String(under).length - 1).split(".");
  const digits = minorDigits(currency);
  const told = places.slice(0, digits) + places.slice(digits).replace(/0+$/u, "");
  return told ? `${whole}.${told}` : whole;
}
