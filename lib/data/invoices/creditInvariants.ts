import { creditableLines } from "@/lib/domain/invoices/creditable";
import { creditTotals } from "@/lib/domain/invoices/creditTotals";
import type { FrozenInvoice } from "../documents/invoice";

/** What does not hold about the credit notes of an issued invoice, given in their order; as problems are said after its name. */
export function creditProblems(
  doc: FrozenInvoice,
  credits: readonly FrozenInvoice[],
  takenBack: boolean,
): string[] {
  const whole = credits.filter((credit) => credit.takes === undefined);
  const left = creditableLines(doc, credits);
  const over = left.some(
    ({ chargedMinor, leftMinor, leftMilli, line }) =>
      leftMinor * Math.sign(chargedMinor) < 0 || leftMilli * Math.sign(line.quantityMilli) < 0,
  );
  const all = credits.length > 0 && left.every((line) => line.leftMinor === 0);
  const sum = (of: (credit: FrozenInvoice) => number) =>
    credits.reduce((total, credit) => total + of(credit), 0);
  const holds: readonly (readonly [boolean, string])[] = [
    [whole.length === 0 || credits.length === 1, "is credited more than once"],
    [!over, "is credited for more of a line than it charges"],
    [takenBack === all, "is kept as taken back in another way than its credit notes say"],
    [
      credits.every((credit, at) => addsUp(doc, credits.slice(0, at), credit)),
      "has a credit note that does not add up",
    ],
    [
      !all ||
        (sum((credit) => credit.grossMinor) === 0 - doc.grossMinor &&
          sum((credit) => credit.taxMinor) === 0 - doc.taxMinor),
      "is taken back at another sum than it charged",
    ],
  ];
  return holds.flatMap(([fine, what]) => (fine ? [] : [what]));
}

/** A note of a part: its sums are those of its lines after the notes before it, and its lines are what it takes. */
function addsUp(doc: FrozenInvoice, before: readonly FrozenInvoice[], credit: FrozenInvoice): boolean {
  if (credit.takes === undefined) return true;
  const totals = creditTotals(doc, before, credit.lines);
  const shown = credit.lines.reduce((sum, line) => sum + line.shownMinor, 0);
  const taken = credit.takes.reduce((sum, take) => sum + take.shownMinor, 0);
  return (
    shown === 0 - taken &&
    totals.netMinor === credit.netMinor &&
    totals.taxMinor === credit.taxMinor &&
    totals.grossMinor === credit.grossMinor
  );
}
