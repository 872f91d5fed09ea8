import { discountsAsWorked } from "@/lib/domain/invoices/agreedDiscounts";
import { type FixedWork, fixedKey } from "@/lib/domain/invoices/fixedWork";
import { workedLabour, workedParts } from "@/lib/domain/invoices/worked";
import type { FixedFact, LineDiscount, PartFact } from "@/lib/domain/pricing/facts";
import { priceQuote } from "@/lib/domain/pricing/quote";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import { Refusal } from "@/lib/domain/refusal";
import { taxMark } from "@/lib/domain/tax/rates";
import { entryOf } from "../jobs/time/overrun";
import { type AgreedQuote, agreedOf, fixedWorkOf, lineKey, partCode, shareOff, shownNow } from "./agreed";
import { type BasisLines, rulesOf, unpricedPart } from "./basis";
import type { InvoiceFacts } from "./facts";
import { fittedFor } from "./fittedJets";
import { asAgreedByHand } from "./handParts";
import { asAgreedInKits } from "./kitParts";

/**
 * The lines as worked: minutes billed by grade, parts really used at the price rules; and as agreed: fixed prices in place of
 * the time and parts of their own work, lines by hand, work bought outside, discounts.
 */
export function workedLines(facts: InvoiceFacts, now: Date): BasisLines {
  const { job, settings, grades } = facts;
  const agreed = agreedOf(facts);
  const fixed = fixedWorkOf(agreed, facts);
  const unit = settings.billingUnit === "tenths" ? "tenths" : "minutes";
  const charged = <T>(rows: readonly T[], stepOf: (row: T) => number | null) =>
    rows.filter((row) => !fixed.steps.has(stepOf(row) ?? 0));
  const rules = rulesOf(facts);
  const labour = workedLabour(
    job.steps,
    charged(job.timeEntries, (entry) => entry.stepId).map(entryOf),
    grades,
    unit,
    now.getTime(),
  );
  const used = withoutFixed(workedParts(charged(job.moves, (move) => move.stepId)), fixed);
  const { ofKits, rest } = asAgreedInKits(used, agreed, rules.pricesIncludeTax);
  const parts = [...ofKits, ...asAgreedByHand(rest, agreed, rules)];
  const lines = agreed.flatMap((quote, at) => keptLines(quote, at, fixed, rules.pricesIncludeTax));
  const outside = lines.filter((line) => line.kind === "outside").map((line) => line.fact);
  const byHand = lines.filter((line) => line.kind === "hand").map((line) => line.fact);
  const fixedPrices = lines.filter((line) => line.kind === "fixed").map((line) => line.fact);
  const keys = [
    ...labour.map((line) => line.key),
    ...parts.map((part) => part.key ?? part.code),
    ...lines.map((line) => line.fact.key),
  ];
  const off = shareOfAll(agreed, facts);
  const priced = priceQuote({
    ...rules,
    labour,
    parts,
    fixed: fixedPrices,
    outside,
    byHand,
    sundriesBp: settings.sundriesBp,
    sundriesMaxMinor: settings.sundriesMaxMinor,
    discountBp: off.bp,
    discountWhy: off.why,
    lineDiscounts: discountsOf(agreed, facts).filter((one) => keys.includes(one.line)),
    ...amountOff(agreed, rules.pricesIncludeTax),
  });
  const [unpriced] = priced.unpriced ?? [];
  if (unpriced !== undefined) throw unpricedPart(unpriced);
  if (priced.lines.length === 0)
    throw new Refusal(
      "No time and no parts are recorded on this job.",
      "Invoice it as quoted, or enter the time first.",
    );
  const { currency, pricesIncludeTax, taxRegime } = rules;
  return {
    lines: priced.lines,
    currency,
    pricesIncludeTax,
    taxRegime,
    quotes: agreed.map((quote) => quote.frozen.number),
  };
}

/** Parts less those that a fixed price pays for. */
const withoutFixed = (parts: readonly PartFact[], { parts: paid }: FixedWork): PartFact[] =>
  parts.flatMap((part) => {
    const quantityMilli = part.quantityMilli - (paid.get(part.code) ?? 0);
    return quantityMilli > 0 ? [{ ...part, quantityMilli }] : [];
  });

interface KeptLine {
  readonly kind: "fixed" | "hand" | "outside";
  readonly fact: FixedFact;
}

/** The lines of an agreed quote that stand whatever was worked; a fixed price falls away where none of its work was done. */
function keptLines(quote: AgreedQuote, at: number, fixed: FixedWork, inclusive: boolean): KeptLine[] {
  const { frozen, recipe } = quote;
  const isOption = (key: string) =>
    frozen.options.some((option) => option.key === key) &&
    (recipe === null || recipe.options.some((o) => o.key === key && o.fixedPriceMinor !== undefined));
  return frozen.lines.flatMap((line): KeptLine[] => {
    if (line.kind !== "fixed" && line.kind !== "outside") return [];
    const kind = line.kind === "outside" ? "outside" : isOption(line.key) ? "fixed" : "hand";
    if (kind === "fixed" && fixed.leftOut.has(fixedKey(at, line.key))) return [];
    const fact = {
      key: lineKey(quote, at, line.key),
      name: line.name,
      priceMinor: shownNow(line, frozen.pricesIncludeTax, inclusive),
      costMinor: 0,
      ...(line.taxCategory === "S" ? {} : { taxMark: taxMark(line.taxCategory) }),
    };
    return [{ kind, fact }];
  });
}

/** The share off the whole; quotes that agreed different ones cannot be told apart in work by the hour. */
function shareOfAll(agreed: readonly AgreedQuote[], facts: InvoiceFacts): { bp: number; why: string } {
  const { job } = facts;
  const [first, ...others] = agreed.map((quote) => ({ quote, ...shareOff(quote, facts) }));
  if (!first) return { bp: job.customer.discountBp, why: job.customer.discountClass };
  const other = others.find((one) => one.bp !== first.bp);
  if (other)
    throw new Refusal(
      `Quote ${first.quote.frozen.number} agreed ${first.bp / 100} % off and variation ${other.quote.frozen.number} ${other.bp / 100} %: in work by the hour they cannot be told apart.`,
      "Invoice the job as quoted.",
    );
  return { bp: first.bp, why: first.why };
}

/** Discounts agreed on single lines; one on a line that was left open is on the jets that were fitted. */
function discountsOf(agreed: readonly AgreedQuote[], facts: InvoiceFacts): LineDiscount[] {
  return agreed.flatMap((quote, at) =>
    discountsAsWorked(quote.frozen.lines, quote.terms.lineDiscounts, (key) => {
      const line = quote.frozen.lines.find((one) => one.key === key);
      if (line?.unsettled)
        return fittedFor(facts, quote.frozen.number, line.unsettled).map((part) => part.code);
      const hand = handPartsOf(quote.terms).find((one) => one.key === key);
      if (hand && hand.priceMinor === undefined) return [hand.code];
      return line?.kind === "part" && !hand && !line.kit ? [partCode(line)] : [lineKey(quote, at, key)];
    }),
  );
}

/** Amounts agreed off the whole, as the quotes printed them. */
function amountOff(agreed: readonly AgreedQuote[], inclusive: boolean) {
  const lines = agreed.flatMap(({ frozen }) =>
    frozen.lines
      .filter((line) => line.kind === "discount" && line.key.startsWith("amount-off-"))
      .map((line) => ({ name: line.name, minor: 0 - shownNow(line, frozen.pricesIncludeTax, inclusive) })),
  );
  if (lines.length === 0) return {};
  return {
    amountOffMinor: lines.reduce((sum, line) => sum + line.minor, 0),
    amountOffWhy: [...new Set(lines.map((line) => line.name))].join("; "),
  };
}
