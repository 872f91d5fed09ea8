import { roundHalfAway } from "../money/round";
import type { LineDiscount, PriceLine } from "../pricing/facts";

type Agreed = Pick<PriceLine, "key" | "kind" | "shownMinor">;

/** Of one of several works its key stands before, and a colon: lib/domain/quoting/composeWorks.ts. */
const LABOUR = /^(?:[^:]*:)?(?:work|opening)-(.*)$/;

/**
 * Discounts agreed on single lines, on the lines of an invoice as worked, by their keys. A quote has two labour lines for a grade
 * (work, opening up), the invoice one: that one takes the share which the agreed discounts were of the agreed labour of the grade
 * (judgement: work that goes as planned is then billed as agreed). Where two discounts meet on one line the larger holds.
 * `keyOf` gives the invoice's keys of any other line.
 */
export function discountsAsWorked(
  lines: readonly Agreed[],
  discounts: readonly LineDiscount[],
  keyOf: (line: string) => readonly string[],
): LineDiscount[] {
  const found = new Map<string, LineDiscount>();
  const add = (discount: LineDiscount) => {
    const there = found.get(discount.line);
    if (discount.bp > 0 && (!there || there.bp < discount.bp)) found.set(discount.line, discount);
  };
  for (const discount of discounts) {
    const grade = LABOUR.exec(discount.line)?.[1];
    if (grade === undefined) for (const line of keyOf(discount.line)) add({ ...discount, line });
    else add({ ...discount, line: `worked-${grade}`, bp: shareOf(lines, discounts, grade) });
  }
  return [...found.values()];
}

/** Basis points that all discounts on a grade's agreed labour are of it. */
function shareOf(lines: readonly Agreed[], discounts: readonly LineDiscount[], grade: string): number {
  const labour = lines.filter((line) => line.kind === "labour" && LABOUR.exec(line.key)?.[1] === grade);
  const all = labour.reduce((sum, line) => sum + line.shownMinor, 0);
  if (all <= 0) return 0;
  const off = labour.reduce(
    (sum, line) => sum + line.shownMinor * (discounts.find((one) => one.line === line.key)?.bp ?? 0),
    0,
  );
  return roundHalfAway(off / all);
}
