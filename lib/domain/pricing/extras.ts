import { moneyText } from "../money/format";
import { percent } from "../money/round";
import { e4OfMinor, MILLI } from "../money/scale";
import { within } from "../refusal";
import type { PriceFacts } from "./facts";
import { type ShownLine, taxOf } from "./lines";
import { saying } from "./said";

const total = (lines: readonly ShownLine[]) => lines.reduce((sum, l) => sum + l.shownMinor, 0);

/**
 * Sundries (cleaner, gas, rags): a share of what labour and parts show, up to a most; no line for nothing.
 * Their cost is not known line by line and counts as 0. Common practice.
 */
export function sundriesLines(lines: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const bp = facts.sundriesBp;
  within("sundries", bp / 100, 0, 100, "%");
  const base = total(lines.filter((l) => l.kind === "labour" || l.kind === "part"));
  const full = percent(base, bp);
  const most = facts.sundriesMaxMinor;
  const shownMinor = most === null ? full : Math.min(full, within("most for sundries", most, 0, 1e12));
  if (shownMinor === 0) return [];
  const tax = taxOf(facts, "sundries");
  const capped =
    shownMinor < full
      ? { effect: `kept to the most of ${moneyText(shownMinor, facts.currency, facts.locale)}` }
      : {};
  return [
    {
      key: "sundries",
      kind: "sundries",
      name: "Sundries",
      ...saying("sundries", "Sundries"),
      quantityMilli: MILLI,
      unit: "each",
      unitPriceE4: e4OfMinor(shownMinor, facts.currency),
      shownMinor,
      costMinor: 0,
      taxCategory: tax.category,
      taxRateBp: tax.rateBp,
      because: [
        {
          fact: `${bp / 100} % of ${moneyText(base, facts.currency, facts.locale)} labour and parts`,
          from: "price book",
          ...capped,
        },
        { fact: tax.name, from: "tax regime of the shop" },
      ],
    },
  ];
}
