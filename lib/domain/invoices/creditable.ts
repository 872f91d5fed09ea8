import { allocate } from "../money/allocate";
import type { PrintedInvoice, PrintedLine } from "./printed";

/** A line of an invoice as it can still be credited. */
export interface CreditableLine {
  readonly line: PrintedLine;
  /** What was charged for it, after all that came off it, in minor units as the invoice shows prices. */
  readonly chargedMinor: number;
  /** What of that no credit note has taken back yet. */
  readonly leftMinor: number;
  /** Thousandths of its unit that no credit note has taken back yet. */
  readonly leftMilli: number;
}

export const taxGroupOf = (line: Pick<PrintedLine, "taxCategory" | "taxRateBp">): string =>
  `${line.taxCategory}-${line.taxRateBp}`;

/**
 * The lines of an issued invoice with what is left of each after the credit notes there are. A discount is no line of its own
 * here: one on a line is taken off that line, one on the whole is shared out over the lines of its job, tax category and rate by
 * largest remainder, so that the lines add up to what was charged. A discount that falls on no line stays a line. Money in minor
 * units. A credit note that names no takes takes all of it. Source: common practice, no source; the sharing is `allocate`'s.
 */
export function creditableLines(
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
): CreditableLine[] {
  const whole = credits.some((credit) => credit.takes === undefined);
  const taken = Map.groupBy(
    credits.flatMap((credit) => credit.takes ?? []),
    (take) => take.key,
  );
  return chargedLines(invoice.lines).map(({ line, chargedMinor }) => {
    const own = taken.get(line.key) ?? [];
    const left = (all: number, of: "shownMinor" | "quantityMilli") =>
      whole ? 0 : all - own.reduce((sum, take) => sum + take[of], 0);
    return {
      line,
      chargedMinor,
      leftMinor: left(chargedMinor, "shownMinor"),
      leftMilli: left(line.quantityMilli, "quantityMilli"),
    };
  });
}

interface Charged {
  readonly line: PrintedLine;
  readonly chargedMinor: number;
}

function chargedLines(lines: readonly PrintedLine[]): Charged[] {
  const charged = new Map(
    lines.filter((line) => line.kind !== "discount").map((line) => [line.key, line.shownMinor]),
  );
  const add = (key: string, minor: number) => charged.set(key, (charged.get(key) ?? 0) + minor);
  const discounts = lines.filter((line) => line.kind === "discount");
  const ofLine = (discount: PrintedLine) => discountedKey(discount.key, charged);
  for (const discount of discounts) {
    const key = ofLine(discount);
    if (key !== null) add(key, discount.shownMinor);
  }
  for (const discount of discounts.filter((one) => ofLine(one) === null)) {
    const under = lines.filter(
      (line) =>
        line.kind !== "discount" && line.job === discount.job && taxGroupOf(line) === taxGroupOf(discount),
    );
    const weights = under.map((line) => Math.max(0, charged.get(line.key) ?? 0));
    if (weights.every((weight) => weight === 0)) charged.set(discount.key, discount.shownMinor);
    else
      allocate(discount.shownMinor, weights).forEach((share, at) => {
        const line = under[at];
        if (line) add(line.key, share);
      });
  }
  return lines.flatMap((line) => {
    const chargedMinor = charged.get(line.key);
    return chargedMinor === undefined ? [] : [{ line, chargedMinor }];
  });
}

const OFF = "off-";

/** Key of the line that a discount comes off; null for one on the whole. The mark stands after a job's or a variation's number. */
function discountedKey(key: string, lines: ReadonlyMap<string, number>): string | null {
  for (let at = key.indexOf(OFF); at >= 0; at = key.indexOf(OFF, at + 1)) {
    const of = key.slice(0, at) + key.slice(at + OFF.length);
    if (lines.has(of)) return of;
  }
  return null;
}
