import type { PrintedLine } from "../invoices/printed";

/** A document's lines, and what is taken off or added as a whole. */
export interface Adjusted {
  readonly lines: readonly PrintedLine[];
  readonly allowances: readonly PrintedLine[];
  readonly charges: readonly PrintedLine[];
}

/**
 * Parts a document's printed lines: discounts are allowances of the document (BG-20), or charges (BG-21) where they add, each in its
 * tax category and rate; the rest are lines. Where nothing but discounts is there, they stay lines (BR-16: at least one). `sign` is -1
 * on a credit note, whose printed amounts are below zero.
 */
export function adjusted(printed: readonly PrintedLine[], sign: 1 | -1): Adjusted {
  const lines = printed.filter((line) => line.kind !== "discount");
  if (lines.length === 0) return { lines: printed, allowances: [], charges: [] };
  const rest = printed.filter((line) => line.kind === "discount" && line.netMinor !== 0);
  return {
    lines,
    allowances: rest.filter((line) => line.netMinor * sign < 0),
    charges: rest.filter((line) => line.netMinor * sign > 0),
  };
}
