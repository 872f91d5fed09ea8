import type { PrintedInvoice } from "../invoices/printed";
import { allocate } from "../money/allocate";
import type { TaxedNet } from "./events";

/**
 * What a document charges, per tax category and rate, shared out over work and parts. Lines of kind part are parts; labour, fixed
 * prices, sundries and work done outside are work. Discounts, and allowances and charges on the whole document, are shared out in
 * proportion, so that income is what was charged. The nets add up to the document's net, the taxes to its tax, to the cent.
 */
export function netsOf(doc: Pick<PrintedInvoice, "lines" | "taxes">): TaxedNet[] {
  return doc.taxes.map(({ category, rateBp, taxableMinor, taxMinor }) => {
    const lines = doc.lines.filter(
      (line) => line.kind !== "discount" && line.taxCategory === category && line.taxRateBp === rateBp,
    );
    const sum = (parts: boolean) =>
      lines.reduce((total, line) => ((line.kind === "part") === parts ? total + line.netMinor : total), 0);
    const [workMinor, partsMinor] = shared(taxableMinor, sum(false), sum(true));
    return { category, rateBp, workMinor, partsMinor, taxMinor };
  });
}

/** As many as the lines say where they say it all; else in proportion to what is charged. */
function shared(net: number, work: number, parts: number): [number, number] {
  if (work + parts === net) return [work, parts];
  const weights = [work, parts].map((minor) => Math.max(0, net < 0 ? 0 - minor : minor));
  if (weights.every((weight) => weight === 0)) return [net, 0];
  const [first = 0, second = 0] = allocate(net, weights);
  return [first, second];
}
