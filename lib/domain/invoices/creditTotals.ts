import { taxGroups } from "../money/document";
import { taxWithin } from "../money/inclusive";
import { percent } from "../money/round";
import type { TaxSubtotal } from "../pricing/facts";
import { taxNameOf } from "../tax/rates";
import type { PrintedInvoice, PrintedLine } from "./printed";

type Taxed = Pick<PrintedInvoice, "taxes" | "pricesIncludeTax" | "taxRegime">;

/** Sums of a credit note of a part of an invoice, as it prints them: below zero. */
export interface CreditTotals {
  readonly taxes: readonly TaxSubtotal[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

/**
 * Totals of a credit note of a part of an invoice, after the credit notes `before` it; all in minor units and below zero. The tax of a
 * category and rate is what the tax of all that is credited now is more than what was credited of it before, so that credit notes that
 * together take all take the invoice's tax to the minor unit. It is at most one minor unit from the rate of this note alone, which the
 * tolerance of EN 16931 BR-CO-17 allows. Throws Refusal for an unknown regime.
 */
export function creditTotals(
  invoice: Taxed,
  before: readonly Taxed[],
  lines: readonly Pick<PrintedLine, "netMinor" | "shownMinor" | "taxCategory" | "taxRateBp">[],
): CreditTotals {
  const groups = taxGroups(
    lines.map(({ netMinor, shownMinor, taxCategory: category, taxRateBp: rateBp }) => ({
      netMinor,
      shownMinor,
      category,
      rateBp,
    })),
    invoice.pricesIncludeTax,
  );
  const taxes = groups.map(({ category, rateBp, taxableMinor, taxMinor }) => ({
    category,
    rateBp,
    name: taxNameOf(invoice.taxRegime, category, rateBp),
    taxableMinor,
    taxMinor: invoice.pricesIncludeTax
      ? taxMinor
      : 0 - taxOfPart(invoice, before, { category, rateBp }, 0 - taxableMinor),
  }));
  const netMinor = taxes.reduce((sum, tax) => sum + tax.taxableMinor, 0);
  const taxMinor = taxes.reduce((sum, tax) => sum + tax.taxMinor, 0);
  return { taxes, netMinor, taxMinor, grossMinor: netMinor + taxMinor };
}

/**
 * The tax of a part of an invoice's category and rate, in minor units and above zero for a part that is. `shownMinor`: the part as the
 * invoice shows prices.
 */
export function taxOfPart(
  invoice: Taxed,
  before: readonly Taxed[],
  group: { readonly category: string; readonly rateBp: number },
  shownMinor: number,
): number {
  const own = before
    .flatMap((credit) => credit.taxes)
    .filter((tax) => tax.category === group.category && tax.rateBp === group.rateBp);
  const taxed = 0 - own.reduce((sum, tax) => sum + tax.taxMinor, 0);
  const net = 0 - own.reduce((sum, tax) => sum + tax.taxableMinor, 0);
  const all = invoice.pricesIncludeTax
    ? taxWithin(net + taxed + shownMinor, group.rateBp)
    : percent(net + shownMinor, group.rateBp);
  return all - taxed;
}
