import type { PrintedInvoice, PrintedLine } from "../invoices/printed";
import type { Adjusted } from "./adjusted";
import type { Einvoice } from "./einvoice";

const sum = (minors: readonly number[]): number => minors.reduce((total, minor) => total + minor, 0);

/**
 * BG-22 of a document, in minor units: each sum added again in whole numbers (BR-CO-10 to 16) and held against what the document prints,
 * its tax groups (BG-23) too. What was paid as it was issued counts as paid before (BT-113), cash rounding as BT-114. The tax of a group
 * is the document's own: it is at most one minor unit from the rate (BR-CO-17). Throws an error where the document does not add up.
 */
export function totalsOf(doc: PrintedInvoice, parts: Adjusted, sign: 1 | -1): Einvoice["totals"] {
  const net = (lines: readonly PrintedLine[]) => sum(lines.map((line) => line.netMinor * sign));
  const lineSumMinor = net(parts.lines.flatMap(({ line, allowances }) => [line, ...allowances]));
  const allowanceMinor = 0 - net(parts.allowances);
  const chargeMinor = net(parts.charges);
  const netMinor = lineSumMinor - allowanceMinor + chargeMinor;
  const taxMinor = sum(doc.taxes.map((group) => group.taxMinor * sign));
  const grossMinor = netMinor + taxMinor;
  const prepaidMinor = doc.prepaidMinor * sign + sum(doc.settlements.map((one) => one.amountMinor));
  const roundingMinor = sum(doc.settlements.map((one) => one.roundingMinor));
  const faults = [
    netMinor !== doc.netMinor * sign && "its lines are not its net",
    taxMinor !== doc.taxMinor * sign && "its tax groups are not its tax",
    grossMinor !== doc.grossMinor * sign && "net and tax are not its total",
    !groupsAgree(doc) && "a tax group is not its lines",
    grossMinor - doc.prepaidMinor * sign !== doc.dueMinor * sign &&
      "its total less what was paid is not what is due",
  ].filter((fault) => fault !== false);
  if (faults.length > 0) throw new Error(`Document ${doc.written} does not add up: ${faults.join(", ")}.`);
  return {
    lineSumMinor,
    allowanceMinor,
    chargeMinor,
    netMinor,
    taxMinor,
    grossMinor,
    prepaidMinor,
    roundingMinor,
    dueMinor: grossMinor - prepaidMinor + roundingMinor,
  };
}

/** Every line's category and rate has its group, and each group is what its lines come to (BT-116). */
function groupsAgree({ lines, taxes }: PrintedInvoice): boolean {
  const key = (category: string, rateBp: number) => `${category} ${rateBp}`;
  const left = new Map(taxes.map((group) => [key(group.category, group.rateBp), group.taxableMinor]));
  for (const line of lines) {
    const group = key(line.taxCategory, line.taxRateBp);
    left.set(group, (left.get(group) ?? Number.NaN) - line.netMinor);
  }
  return [...left.values()].every((minor) => minor === 0);
}
