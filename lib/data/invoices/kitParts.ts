import type { PartFact } from "@/lib/domain/pricing/facts";
import { shareUsed } from "@/lib/domain/pricing/kitParts";
import { taxMark } from "@/lib/domain/tax/rates";
import { type AgreedQuote, lineKey, partCode, shownNow } from "./agreed";

/**
 * Parts that were used, as far as agreed quotes have them out of a kit with a set price: each at its share of that price, in
 * proportion where less was used than agreed. `rest` is what was used beyond that, at the parts' own prices.
 */
export function asAgreedInKits(
  used: readonly PartFact[],
  agreed: readonly AgreedQuote[],
  inclusive: boolean,
): { readonly ofKits: PartFact[]; readonly rest: PartFact[] } {
  const left = new Map(used.map((part) => [part.code, part.quantityMilli]));
  const ofKits = agreed.flatMap((quote, at) =>
    quote.frozen.lines.flatMap((line): PartFact[] => {
      const { kit } = line;
      if (!kit) return [];
      const code = partCode(line);
      const part = used.find((one) => one.code === code);
      const quantityMilli = Math.min(line.quantityMilli, left.get(code) ?? 0);
      if (!part || quantityMilli === 0) return [];
      left.set(code, (left.get(code) ?? 0) - quantityMilli);
      const agreedMinor = shownNow(line, quote.frozen.pricesIncludeTax, inclusive);
      return [
        {
          ...part,
          key: lineKey(quote, at, line.key),
          quantityMilli,
          ...(line.taxCategory === "S" ? {} : { taxMark: taxMark(line.taxCategory) }),
          kit: { ...kit, amountMinor: shareUsed(agreedMinor, line.quantityMilli, quantityMilli) },
        },
      ];
    }),
  );
  const rest = used.flatMap((part) => {
    const quantityMilli = left.get(part.code) ?? 0;
    return quantityMilli > 0 ? [{ ...part, quantityMilli }] : [];
  });
  return { ofKits, rest };
}
