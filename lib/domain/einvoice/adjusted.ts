import type { PrintedLine } from "../invoices/printed";
import { jobOfKey, keyOfJob } from "../invoices/severalJobs";

/** A line with what is taken off it alone. */
export interface AdjustedLine {
  readonly line: PrintedLine;
  readonly allowances: readonly PrintedLine[];
}

/** A document's lines, and what is taken off or added as a whole. */
export interface Adjusted {
  readonly lines: readonly AdjustedLine[];
  readonly allowances: readonly PrintedLine[];
  readonly charges: readonly PrintedLine[];
}

/**
 * Parts a document's printed lines: a share off one line is an allowance of that line (BG-27); other discounts are allowances of the
 * document (BG-20), or charges (BG-21) where they add, each in its tax category and rate; the rest are lines. Where nothing but discounts
 * is there, they stay lines (BR-16: at least one). `sign` is -1 on a credit note, whose printed amounts are below zero.
 */
export function adjusted(printed: readonly PrintedLine[], sign: 1 | -1): Adjusted {
  const charged = printed.filter((line) => line.kind !== "discount");
  if (charged.length === 0)
    return { lines: printed.map((line) => ({ line, allowances: [] })), allowances: [], charges: [] };
  const discounts = printed.filter((line) => line.kind === "discount" && line.netMinor !== 0);
  const lines = charged.map((line) => ({
    line,
    allowances: discounts.filter((one) => one.netMinor * sign < 0 && isOff(one, line)),
  }));
  const ofLines = new Set(lines.flatMap((one) => one.allowances));
  const rest = discounts.filter((one) => !ofLines.has(one));
  return {
    lines,
    allowances: rest.filter((line) => line.netMinor * sign < 0),
    charges: rest.filter((line) => line.netMinor * sign > 0),
  };
}

/** A discount of one line says so in its key, and is taxed as the line is. */
function isOff(discount: PrintedLine, line: PrintedLine): boolean {
  const { job, key } = jobOfKey(line.key);
  return (
    discount.key === keyOfJob(job, `off-${key}`) &&
    discount.taxCategory === line.taxCategory &&
    discount.taxRateBp === line.taxRateBp
  );
}
