import { amountOf } from "../money/scale";
import type { PartFact } from "../pricing/facts";
import { keyIn, workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";
import { drawerOf, JET_NAMES } from "./jets";
import type { QuotePart } from "./partsWanted";

/** The parts that are priced by the line: the same part wanted twice by one work is one. */
export function partFactsOf(facts: QuoteFacts, parts: readonly QuotePart[]): PartFact[] {
  const merged = new Map<string, PartFact>();
  for (const p of parts) {
    const code = p.unsettled ? `${p.setting} ${p.code}` : p.code;
    const work = facts.works ? workOf(facts.works, p.option) : undefined;
    const key = keyIn(work ?? "", code);
    const before = merged.get(key);
    merged.set(key, {
      code,
      ...(work === undefined ? {} : { key, work }),
      name: p.name,
      unit: p.unit,
      quantityMilli: (before?.quantityMilli ?? 0) + p.quantityMilli,
      unitCostE4: p.costE4,
      unitPriceE4: p.priceE4,
      ...(p.taxMark ? { taxMark: p.taxMark } : {}),
      ...unsettledFact(facts, p),
    });
  }
  return [...merged.values()];
}

function unsettledFact(facts: QuoteFacts, { setting, size, unsettled }: QuotePart) {
  if (!unsettled || setting === null) return {};
  const sizes = drawerOf(facts, unsettled.family).map(({ costE4, priceE4 }) => ({
    unitCostE4: costE4,
    unitPriceE4: priceE4,
  }));
  return { unsettled: { setting, family: unsettled.family, name: JET_NAMES[setting], size, sizes } };
}

/** What some parts cost the shop, in minor units; a cost that nobody knows counts as nothing. */
export function partsCost(parts: readonly QuotePart[], currency: string): number {
  return parts.reduce(
    (sum, p) => sum + (p.costE4 === null ? 0 : amountOf(p.costE4, p.quantityMilli, currency)),
    0,
  );
}
