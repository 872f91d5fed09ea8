import { roundHalfAway } from "@/lib/domain/money/round";
import { e4OfMinor, MILLI } from "@/lib/domain/money/scale";
import type { PartFact, PriceFacts } from "@/lib/domain/pricing/facts";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import { taxMark } from "@/lib/domain/tax/rates";
import { type AgreedQuote, lineKey, shownNow } from "./agreed";

/** Parts at the prices that quotes agreed for them by hand, as far as they agreed; what was used beyond that as parts are priced. */
export function asAgreedByHand(
  parts: readonly PartFact[],
  agreed: readonly AgreedQuote[],
  { currency, pricesIncludeTax }: Pick<PriceFacts, "currency" | "pricesIncludeTax">,
): PartFact[] {
  const left = new Map(parts.map((part) => [part.code, part.quantityMilli]));
  const byHand = agreed.flatMap((quote, at) =>
    handPartsOf(quote.terms).flatMap((hand): PartFact[] => {
      const part = parts.find((one) => one.code === hand.code);
      const line = quote.frozen.lines.find((one) => one.key === hand.key);
      const quantityMilli = Math.min(hand.quantityMilli, left.get(hand.code) ?? 0);
      if (!part || !line || hand.priceMinor === undefined || quantityMilli === 0) return [];
      left.set(hand.code, (left.get(hand.code) ?? 0) - quantityMilli);
      const shown = shownNow(line, quote.frozen.pricesIncludeTax, pricesIncludeTax);
      return [
        {
          ...part,
          key: lineKey(quote, at, hand.key),
          name: line.name,
          quantityMilli,
          unitPriceE4: roundHalfAway((e4OfMinor(shown, currency) * MILLI) / hand.quantityMilli),
          ...(line.taxCategory === "S" ? {} : { taxMark: taxMark(line.taxCategory) }),
        },
      ];
    }),
  );
  const rest = parts.flatMap((part) => {
    const quantityMilli = left.get(part.code) ?? 0;
    return quantityMilli > 0 ? [{ ...part, quantityMilli }] : [];
  });
  return [...byHand, ...rest];
}
