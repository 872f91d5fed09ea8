import { netLines } from "@/lib/domain/pricing/document";
import type { LineDiscount, PartFact, PriceLine } from "@/lib/domain/pricing/facts";
import type { ShownLine } from "@/lib/domain/pricing/lines";
import { priceQuote } from "@/lib/domain/pricing/quote";
import { saying, sayingOf } from "@/lib/domain/pricing/said";
import { Refusal } from "@/lib/domain/refusal";
import { type AgreedQuote, demandAgreed, lineKey, shareOff } from "./agreed";
import { type BasisLines, costless, rulesOf, unpricedPart } from "./basis";
import type { InvoiceFacts } from "./facts";
import { demandAsked, fittedFor } from "./fittedJets";

/**
 * The lines as agreed: of the accepted quote, then of each accepted variation. A line that was left open is replaced by the jets
 * really fitted, at their own prices and with the discounts agreed for it.
 */
export function fixedLines(facts: InvoiceFacts): BasisLines {
  const agreed = demandAgreed(facts);
  const [first, ...variations] = agreed.map((quote) => quote.frozen);
  if (!first) throw new Error("An accepted job without a quote.");
  const { currency, pricesIncludeTax, taxRegime } = first;
  const other = variations.find(
    (q) => q.currency !== currency || q.pricesIncludeTax !== pricesIncludeTax || q.taxRegime !== taxRegime,
  );
  if (other)
    throw new Refusal(
      `Variation ${other.number} was priced under other tax settings than quote ${first.number}.`,
      "Invoice the job as worked: that prices all of it in one way.",
    );
  const own = agreed.map((quote, at) => linesOf(facts, quote, at));
  const lines = own.flatMap((one) => one.lines);
  // With tax in the prices, the nets of lines that come together are shared out anew so that the document adds up.
  const whole =
    variations.length === 0 && !own.some((one) => one.anew) ? lines : netLines(lines, pricesIncludeTax);
  return {
    lines: whole,
    currency,
    pricesIncludeTax,
    taxRegime,
    quotes: agreed.map((quote) => quote.frozen.number),
  };
}

/** The lines of one agreed quote; `anew` where some of them are not its own. */
function linesOf(facts: InvoiceFacts, quote: AgreedQuote, at: number): { lines: PriceLine[]; anew: boolean } {
  const { frozen } = quote;
  const told = (line: Pick<PriceLine, "name" | "work" | "said">) => {
    const { name, work } = line;
    const of = work === undefined ? undefined : frozen.works?.find((one) => one.key === work)?.name;
    const named = of === undefined || of === name ? name : `${of}: ${name}`;
    if (at === 0) return { name: named };
    const variation = sayingOf(saying("variation", "(variation"), line);
    return { name: `${named} (variation ${frozen.number})`, ...variation };
  };
  const done = new Set<string>();
  const off: PriceLine[] = [];
  const lines = frozen.lines.flatMap((line): PriceLine[] => {
    const { unsettled } = line;
    if (!unsettled) return [costless({ ...line, key: lineKey(quote, at, line.key), ...told(line) })];
    demandAsked(facts, frozen.number, unsettled);
    const mark = `${unsettled.setting} ${unsettled.family}`;
    if (done.has(mark)) return [];
    done.add(mark);
    const agreedOff = quote.terms.lineDiscounts.filter((one) => isOfMark(frozen, one, mark));
    const priced = pricedAsFitted(facts, quote, fittedFor(facts, frozen.number, unsettled), agreedOff);
    const named = priced.map((one) =>
      costless({ ...one, key: lineKey(quote, at, `fitted-${mark}-${one.key}`), ...told(one) }),
    );
    off.push(...named.filter((one) => one.kind === "discount"));
    return named.filter((one) => one.kind !== "discount");
  });
  return { lines: [...lines, ...off], anew: done.size > 0 };
}

const isOfMark = ({ lines }: AgreedQuote["frozen"], { line }: LineDiscount, mark: string): boolean => {
  const found = lines.find((one) => one.key === line)?.unsettled;
  return found !== undefined && `${found.setting} ${found.family}` === mark;
};

function pricedAsFitted(
  facts: InvoiceFacts,
  quote: AgreedQuote,
  parts: readonly PartFact[],
  agreedOff: readonly LineDiscount[],
): readonly (ShownLine & { netMinor: number })[] {
  if (parts.length === 0) return [];
  const { frozen } = quote;
  const { settings } = facts;
  if (frozen.pricesIncludeTax !== settings.pricesIncludeTax || frozen.taxRegime !== settings.taxRegime)
    throw new Refusal(
      `Quote ${frozen.number} was priced under other tax settings than the shop has now, and a jet of it is priced only now.`,
      "Invoice the job as worked: that prices all of it in one way.",
    );
  const { bp, why } = shareOff(quote, facts);
  const [off] = agreedOff;
  const priced = priceQuote({
    ...rulesOf(facts),
    labour: [],
    parts,
    fixed: [],
    outside: [],
    sundriesBp: 0,
    sundriesMaxMinor: null,
    discountBp: bp,
    discountWhy: why && `${why}, on what was settled when it was fitted`,
    lineDiscounts: off ? parts.map((part) => ({ ...off, line: part.code })) : [],
  });
  const [unpriced] = priced.unpriced ?? [];
  if (unpriced !== undefined) throw unpricedPart(unpriced);
  return priced.lines;
}
