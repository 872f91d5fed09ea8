import { amountOf } from "../money/scale";
import type { OptionKit } from "../packages/recipe";
import type { PartFact } from "../pricing/facts";
import { atKitPrice } from "../pricing/kitParts";
import type { PriceRules } from "../pricing/lines";
import { keyIn, workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";
import { drawerOf, JET_NAMES } from "./jets";
import type { QuotePart } from "./partsWanted";

/**
 * The parts that are priced by the line: the same part wanted twice by one work is one. What came out of a kit with a set price
 * stands beside what did not, at its share of that price.
 */
export function partFactsOf(facts: QuoteFacts, parts: readonly QuotePart[], book: PriceRules): PartFact[] {
  const [own, ofKits] = [false, true].map((inKit) =>
    parts.filter((p) => (kitOf(facts, p) !== null) === inKit),
  );
  const kits = Map.groupBy(ofKits ?? [], ({ option, kit }) => `${option} ${kit ?? ""}`);
  const opened = [...kits.values()].flatMap((parts) => {
    const kit = parts[0] ? kitOf(facts, parts[0]) : null;
    return kit ? atKitPrice(merged(parts.map((p) => factOf(facts, p))), kit, book) : [];
  });
  return merged([...(own ?? []).map((p) => factOf(facts, p)), ...opened]);
}

/** The kit that holds a part's price; null where it has its own. */
function kitOf({ recipe }: QuoteFacts, { option, kit }: QuotePart): OptionKit | null {
  if (kit === undefined) return null;
  return recipe.options.find(({ key }) => key === option)?.kits?.find(({ code }) => code === kit) ?? null;
}

function factOf(facts: QuoteFacts, p: QuotePart): PartFact {
  const code = p.unsettled ? `${p.setting} ${p.code}` : p.code;
  const kit = kitOf(facts, p);
  const work = facts.works ? workOf(facts.works, p.option) : undefined;
  const key = keyIn(work ?? "", kit ? `${code} in ${kit.code}` : code);
  return {
    code,
    ...(work === undefined ? {} : { work }),
    ...(work === undefined && !kit ? {} : { key }),
    name: p.name,
    unit: p.unit,
    quantityMilli: p.quantityMilli,
    unitCostE4: p.costE4,
    unitPriceE4: p.priceE4,
    ...(p.taxMark ? { taxMark: p.taxMark } : {}),
    ...unsettledFact(facts, p),
  };
}

/** One of each key, quantities and shares added up. */
function merged(facts: readonly PartFact[]): PartFact[] {
  const byKey = new Map<string, PartFact>();
  for (const fact of facts) {
    const key = fact.key ?? fact.code;
    const before = byKey.get(key);
    const quantityMilli = (before?.quantityMilli ?? 0) + fact.quantityMilli;
    const amountMinor = (before?.kit?.amountMinor ?? 0) + (fact.kit?.amountMinor ?? 0);
    byKey.set(key, { ...fact, quantityMilli, ...(fact.kit ? { kit: { ...fact.kit, amountMinor } } : {}) });
  }
  return [...byKey.values()];
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
