import { allocate } from "../money/allocate";
import { percent } from "../money/round";
import { e4OfMinor, MILLI, majorText } from "../money/scale";
import { within } from "../refusal";
import type { PriceFacts } from "./facts";
import { type ShownLine, taxOf } from "./lines";

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
    shownMinor < full ? { effect: `kept to the most of ${majorText(shownMinor, facts.currency)}` } : {};
  return [
    {
      key: "sundries",
      kind: "sundries",
      name: "Sundries",
      quantityMilli: MILLI,
      unit: "each",
      unitPriceE4: e4OfMinor(shownMinor, facts.currency),
      shownMinor,
      costMinor: 0,
      taxCategory: tax.category,
      taxRateBp: tax.rateBp,
      because: [
        {
          fact: `${bp / 100} % of ${majorText(base, facts.currency)} labour and parts`,
          from: "price book",
          ...capped,
        },
        { fact: tax.name, from: "tax regime of the shop" },
      ],
    },
  ];
}

/**
 * The document discount on every line, as one negative line per tax category and rate, so that tax falls on what is
 * paid. Rounded once on the whole and split by largest remainder; no line for nothing. Quantity is -1 and the price
 * positive, since an item price is never negative (EN 16931 BR-27).
 */
export function discountLines(lines: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const bp = facts.discountBp;
  within("discount", bp / 100, 0, 100, "%");
  const whole = percent(total(lines), bp);
  if (whole === 0) return [];
  const groups = [...Map.groupBy(lines, (l) => `${l.taxCategory}-${l.taxRateBp}`)].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
  const parts = allocate(
    whole,
    groups.map(([, members]) => total(members)),
  );
  return groups.flatMap(([group, members], at) => {
    const offMinor = parts[at] ?? 0;
    const first = members[0];
    if (!first || offMinor === 0) return [];
    return {
      key: `discount-${group}`,
      kind: "discount" as const,
      name: facts.discountWhy || "Discount",
      quantityMilli: -MILLI,
      unit: "each",
      unitPriceE4: e4OfMinor(offMinor, facts.currency),
      shownMinor: -offMinor,
      costMinor: 0,
      taxCategory: first.taxCategory,
      taxRateBp: first.taxRateBp,
      because: [
        {
          fact: `${bp / 100} % of ${majorText(total(members), facts.currency)}`,
          from: facts.discountWhy || "discount without a reason",
        },
      ],
    };
  });
}
