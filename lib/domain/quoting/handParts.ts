import { e4OfMinor } from "../money/scale";
import type { PartFact } from "../pricing/facts";
import type { QuoteFacts } from "./facts";
import type { Take } from "./fromStock";
import { type QuotePart, unknownPart } from "./partsWanted";
import type { HandPart, QuoteTerms } from "./terms";

/** The parts of stock that were written on a quote by hand. */
export const handPartsOf = (agreed: QuoteTerms): readonly HandPart[] => agreed.parts ?? [];

/**
 * What the parts written by hand take out of stock, in thousandths of each part's unit, after what its works take. No step takes
 * them: the job does, whenever it is done.
 */
export function takenByHand(facts: QuoteFacts, take: Take): QuotePart[] {
  return handPartsOf(facts.agreed).map((hand): QuotePart => {
    const { key, code, quantityMilli } = hand;
    const wanted = { need: { kind: "part" as const, code, quantityMilli }, option: "", operation: null };
    const row = facts.parts.find((part) => part.code === code);
    const part = row ? take(wanted, row, quantityMilli) : unknownPart(wanted, code, quantityMilli);
    return { ...part, byHand: key };
  });
}

/** Their lines: at the price that was agreed, or as the part is priced. Prices and costs in ten-thousandths. */
export function handPartFacts({ agreed, terms }: QuoteFacts, parts: readonly QuotePart[]): PartFact[] {
  return handPartsOf(agreed).flatMap((hand): PartFact[] => {
    const part = parts.find((one) => one.byHand === hand.key);
    if (!part) return [];
    const { priceMinor, costMinor } = hand;
    const mark = hand.taxMark ?? part.taxMark;
    return [
      {
        code: hand.code,
        key: hand.key,
        name: hand.name || part.name,
        unit: part.unit,
        quantityMilli: hand.quantityMilli,
        unitCostE4: costMinor === undefined ? part.costE4 : e4OfMinor(costMinor, terms.currency),
        unitPriceE4: priceMinor === undefined ? part.priceE4 : e4OfMinor(priceMinor, terms.currency),
        ...(mark ? { taxMark: mark } : {}),
      },
    ];
  });
}
