import { netLines } from "../pricing/document";
import type { PriceLine } from "../pricing/facts";
import { creditableLines } from "./creditable";
import { type CreditAsk, creditOfPart } from "./creditLines";
import { pricedAs } from "./pricedAs";
import type { PrintedInvoice } from "./printed";

/**
 * The lines of an invoice that stay once a part of it is credited, after the credit notes there are: what the corrected invoice begins
 * with. Amounts in minor units; what came off a line is in its price. Throws Refusal as creditOfPart does.
 */
export function keptLines(
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
  ask: CreditAsk,
): PriceLine[] {
  const { takes } = creditOfPart(invoice, credits, ask);
  const shown = creditableLines(invoice, credits).flatMap(({ line, leftMilli, leftMinor }) => {
    const own = takes.filter((take) => take.key === line.key);
    const shownMinor = leftMinor - own.reduce((sum, take) => sum + take.shownMinor, 0);
    const quantityMilli = leftMilli - own.reduce((sum, take) => sum + take.quantityMilli, 0);
    if (shownMinor === 0 || quantityMilli === 0) return [];
    return [{ ...pricedAs(line, quantityMilli, shownMinor, invoice.currency), costMinor: null }];
  });
  return netLines(shown, invoice.pricesIncludeTax);
}
