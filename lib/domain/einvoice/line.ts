import type { PrintedLine } from "../invoices/printed";
import { Decimal } from "../money/decimal";
import { majorText } from "../money/major";
import { amountOf, MILLI, priceText } from "../money/scale";
import type { EinvoiceAdjustment, EinvoiceLine, TaxCode } from "./einvoice";
import { unitCode } from "./units";

const BP = 100;

/** A tax category with its rate in basis points as an e-invoice codes it. Source: EN 16931-1 BR-O-05: none outside the scope. */
export const taxCode = (category: string, rateBp: number): TaxCode => ({
  category,
  percent: category === "O" ? null : new Decimal(rateBp).div(BP).toString(),
});

/**
 * A printed line as BG-25. `sign` is -1 on a credit note, whose amounts are below zero on paper and above it here. A price is never below
 * zero (BR-27), so what is taken off has a quantity below it.
 * What is taken off the line is not in its price but off its net amount (BT-131).
 * The unit price stands where price x quantity is the line's net amount to the cent. Elsewhere (prices with tax in them, labour by the
 * minute) the net amount itself is the price, for as many units as the line has (BT-149), so that BT-131 is exact.
 */
export function lineOf(
  line: PrintedLine,
  at: Pick<EinvoiceLine, "name" | "note" | "allowances"> & { readonly id: number },
  currency: string,
  sign: 1 | -1,
): EinvoiceLine {
  const netMinor = line.netMinor * sign || 0;
  const counted = line.quantityMilli * sign || 0;
  const size = Math.abs(counted) || MILLI;
  const milli = netMinor === 0 ? counted : Math.sign(netMinor) * size;
  const byUnit = line.unitPriceE4 >= 0 && amountOf(line.unitPriceE4, milli, currency) === netMinor;
  const [price, baseQuantity] = byUnit
    ? [priceText(line.unitPriceE4, currency), null]
    : [majorText(Math.abs(netMinor), currency), size === MILLI ? null : milliText(size)];
  return {
    id: String(at.id),
    note: at.note,
    quantity: milliText(milli),
    unit: unitCode(line.unit),
    netMinor: netMinor - sumOf(at.allowances),
    allowances: at.allowances,
    charges: [],
    name: at.name,
    price,
    baseQuantity,
    ...taxCode(line.taxCategory, line.taxRateBp),
  };
}

const sumOf = (adjustments: readonly EinvoiceAdjustment[]): number =>
  adjustments.reduce((sum, one) => sum + one.amountMinor, 0);

const milliText = (milli: number): string => new Decimal(milli).div(MILLI).toString();
