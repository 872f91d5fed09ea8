import { moneyText } from "../money/format";
import { percent } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import { type PriceRules, type ShownLine, taxed, taxOf } from "../pricing/lines";
import { Refusal } from "../refusal";
import type { InvoiceEdit, TypedInvoiceLine } from "./edits";

/** An allowance or a charge on the whole of a draft, as it was added by hand. */
type Adjustment = InvoiceEdit & { readonly line: TypedInvoiceLine };

export const isAdjustment = (edit: InvoiceEdit): edit is Adjustment =>
  edit.act === "add" && edit.line?.kind === "discount";

/**
 * The line of an allowance (BG-20) or a charge (BG-21) on the whole document: of an amount, or of a share of the lines that are taxed
 * as it is (BT-93, BT-100), rounded half away from zero. Minor units as the document shows prices; an allowance is below zero.
 * Its name is the reason that is printed (BT-97, BT-104). Throws Refusal for a share where no line is taxed so.
 * Source: EN 16931-1, BG-20 and BG-21, BR-32 and BR-37: each has one tax category.
 */
export function adjustment(edit: Adjustment, lines: readonly ShownLine[], rules: PriceRules): ShownLine {
  const { name, unitPriceE4, discountBp, adds, taxMark } = edit.line;
  const tax = taxed(taxOf(rules, "fixed", taxMark));
  const under = lines.filter(
    (line) =>
      line.kind !== "discount" && line.taxCategory === tax.taxCategory && line.taxRateBp === tax.taxRateBp,
  );
  const baseMinor = under.reduce((sum, line) => sum + line.shownMinor, 0);
  if (discountBp > 0 && baseMinor <= 0)
    throw new Refusal(
      `“${name}” is a share of lines that are taxed as it is, and there is none.`,
      "Choose how the lines are taxed that it is of, or enter an amount.",
      { taxMark: "No line is taxed so." },
    );
  const minor =
    discountBp > 0 ? percent(baseMinor, discountBp) : amountOf(unitPriceE4, MILLI, rules.currency);
  const fact = `${adds ? "added to" : "taken off"} the whole: ${edit.reason}`;
  const share = `${discountBp / 100} % of ${moneyText(baseMinor, rules.currency, rules.locale)}`;
  return {
    key: edit.key,
    kind: "discount",
    name,
    quantityMilli: adds ? MILLI : -MILLI,
    unit: "each",
    unitPriceE4: e4OfMinor(minor, rules.currency),
    shownMinor: adds ? minor : 0 - minor,
    costMinor: null,
    ...tax,
    because: [
      { fact, from: edit.by },
      ...(discountBp > 0 ? [{ fact: share, from: "lines taxed as it is" }] : []),
    ],
  };
}
