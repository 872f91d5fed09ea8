import type { TargetSheet } from "../tuning/targetTypes";
import type { QuoteFacts } from "./facts";
import { takeFrom } from "./fromStock";
import { takenByHand } from "./handParts";
import { jetParts } from "./jets";
import { type QuotePart, unknownPart, wantedOf } from "./partsWanted";

export type { QuotePart } from "./partsWanted";

/**
 * What the chosen options take out of stock, in thousandths of each part's unit. A jet is the one of its family at the size the
 * settings came to, one for each carburettor; where no size is known, or none of that size is kept, it is `unsettled`. A part
 * that the shop does not have has no id. What was written by hand comes after what the works take.
 */
export function partsOf(
  facts: QuoteFacts,
  chosen: readonly string[],
  sheet: TargetSheet | null,
): QuotePart[] {
  const { take, takeReplaced } = takeFrom(facts);
  const ofWorks = wantedOf(facts, chosen).flatMap((wanted): QuotePart[] => {
    const { need } = wanted;
    if (need.kind === "jet") return jetParts(facts, { ...wanted, need }, sheet, take);
    const row = facts.parts.find((p) => p.code === need.code);
    return row
      ? takeReplaced(wanted, row, need.quantityMilli)
      : [unknownPart(wanted, need.code, need.quantityMilli)];
  });
  return [...ofWorks, ...takenByHand(facts, take)];
}
