import { minorDigits, minorPerMajor } from "./currency";
import { Decimal, type Numeric, roundHalfAway } from "./round";

/** Unit prices are kept in ten-thousandths of the major currency unit, quantities in thousandths of the unit. */
const E4 = 10_000;
export const MILLI = 1_000;

/** A unit price in E4 times a quantity in thousandths, in minor units, rounded once half away from zero. */
export function amountOf(unitPriceE4: Numeric, quantityMilli: Numeric, currency: string): number {
  const exact = new Decimal(unitPriceE4).mul(quantityMilli).mul(minorPerMajor(currency));
  return roundHalfAway(exact.div(E4 * MILLI));
}

/** An amount in minor units as E4 of the major unit: 1234 AUD cents are 123400. */
export function e4OfMinor(minor: number, currency: string): number {
  return roundHalfAway(new Decimal(minor).mul(E4).div(minorPerMajor(currency)));
}

/** An amount in minor units as a decimal number in major units: "-12.30", for e-invoices and CSV. */
export function majorText(minor: number, currency: string): string {
  return new Decimal(minor || 0).div(minorPerMajor(currency)).toFixed(minorDigits(currency));
}

/** An E4 price in major units with the currency's digits, or as many more as it needs: "0.0125". */
export function priceText(priceE4: number, currency: string): string {
  const major = new Decimal(priceE4 || 0).div(E4);
  return major.toFixed(Math.max(minorDigits(currency), major.decimalPlaces()));
}
