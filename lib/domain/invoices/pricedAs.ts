import { roundHalfAway } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import type { PrintedLine } from "./printed";

/**
 * A line of an invoice with another quantity (thousandths) and amount (minor units, as the invoice shows prices), before its net is
 * known. The price of one stays where it gives that amount; else it is what comes nearest to it, never below zero (EN 16931 BR-27).
 */
export function pricedAs(
  line: PrintedLine,
  quantityMilli: number,
  shownMinor: number,
  currency: string,
): Omit<PrintedLine, "netMinor"> {
  const asBefore = amountOf(line.unitPriceE4, quantityMilli, currency) === shownMinor;
  const unitPriceE4 = asBefore
    ? line.unitPriceE4
    : roundHalfAway((e4OfMinor(Math.abs(shownMinor), currency) * MILLI) / Math.abs(quantityMilli));
  return { ...line, quantityMilli, unitPriceE4, shownMinor };
}
