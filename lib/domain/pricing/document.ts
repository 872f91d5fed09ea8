import { type DocumentTotals, documentTotals } from "../money/document";
import { netsOfShown } from "../money/inclusive";
import { taxNameOf, taxText } from "../tax/rates";
import type { PriceLine, TaxSubtotal } from "./facts";
import type { ShownLine } from "./lines";

/** A priced document: frozen lines and how prices are shown. A PricedQuote is one. */
export interface PricedDocument {
  readonly lines: readonly PriceLine[];
  readonly pricesIncludeTax: boolean;
  /** Names the taxes; without it they are called "Tax". */
  readonly taxRegime?: string;
}

/** Totals of a document (EN 16931 BG-22) with its named taxes (BG-23). */
export interface PricedTotals extends Omit<DocumentTotals, "taxes"> {
  readonly taxes: readonly TaxSubtotal[];
}

/**
 * Gives shown lines their net amounts: the same for exclusive prices; for inclusive ones the nets of each tax group add up
 * to what is shown less the tax within it.
 */
export function netLines(lines: readonly ShownLine[], pricesIncludeTax: boolean): PriceLine[] {
  const nets = pricesIncludeTax
    ? netsOfShown(
        lines.map((l) => ({ shownMinor: l.shownMinor, category: l.taxCategory, rateBp: l.taxRateBp })),
      )
    : lines.map((l) => l.shownMinor);
  return lines.map((l, at) => ({ ...l, netMinor: nets[at] ?? 0 }));
}

/**
 * Totals of frozen lines: the one way that quotes, invoices (fixed price or as worked) and credit notes add up.
 * `prepaidMinor` (BT-113) is what was paid before, `roundingMinor` (BT-114) what cash rounding changes.
 */
export function invoiceTotals(document: PricedDocument, prepaidMinor = 0, roundingMinor = 0): PricedTotals {
  const { lines, pricesIncludeTax, taxRegime } = document;
  const totals = documentTotals({
    lines: lines.map(({ netMinor, shownMinor, taxCategory, taxRateBp }) => ({
      netMinor,
      shownMinor,
      category: taxCategory,
      rateBp: taxRateBp,
    })),
    prepaidMinor,
    roundingMinor,
    pricesIncludeTax,
  });
  const nameOf = (category: string, rateBp: number) =>
    taxRegime ? taxNameOf(taxRegime, category, rateBp) : taxText("Tax", rateBp);
  return { ...totals, taxes: totals.taxes.map((t) => ({ ...t, name: nameOf(t.category, t.rateBp) })) };
}
