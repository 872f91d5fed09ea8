import type { Reason } from "../reason";
import { taxRegime } from "../tax/rates";
import { comingOff } from "./discounts";
import { invoiceTotals, netLines } from "./document";
import { sundriesLines } from "./extras";
import type { PricedQuote, PriceFacts } from "./facts";
import { fixedLine, labourLine } from "./lines";
import { costOf, marginBp, marginWarnings } from "./margin";
import { partLine } from "./partLines";

function wholeReasons(facts: PriceFacts): Reason[] {
  const regime = taxRegime(facts.taxRegime);
  const shown = facts.pricesIncludeTax ? "prices are shown with tax" : "prices are shown without tax";
  const saved = facts.sharedMinutesSaved;
  return [
    { fact: regime.name, from: `${regime.source}. ${regime.note}`, effect: shown },
    ...(saved > 0
      ? [
          {
            fact: `${saved} min not charged`,
            from: "work plan: all works in one visit, against a visit for each",
          },
        ]
      : []),
  ];
}

/**
 * Prices a quote: labour, parts, fixed prices, work outside, lines by hand, sundries and discounts as lines with their reasons, then
 * taxes, totals, margin and warnings. Rates, set and fixed prices are in the shop's way of showing (with tax where
 * `pricesIncludeTax`); costs and markups are always without tax. Amounts in minor units, rounded per line, half away
 * from zero; totals follow EN 16931 (lib/domain/money/document.ts) and do not depend on the order of facts.
 * A part with neither price nor cost stands at 0 and is named in `unpriced` and in a warning.
 * Throws Refusal for an unknown currency or regime or a missing rate, OutOfRange for a quantity that cannot be.
 */
export function priceQuote(facts: PriceFacts): PricedQuote {
  const parts = facts.parts.map((p) => ({ ...partLine(p, facts), code: p.code }));
  const worked = [
    ...facts.labour.map((l) => labourLine(l, facts)),
    ...parts.map((p) => p.line),
    ...facts.fixed.map((f) => fixedLine(f, "fixed", facts)),
    ...facts.outside.map((f) => fixedLine(f, "outside", facts)),
    ...(facts.byHand ?? []).map((f) => fixedLine(f, "fixed", facts, "written on the quote by hand")),
  ];
  const charged = [...worked, ...sundriesLines(worked, facts)];
  const lines = netLines([...charged, ...comingOff(charged, facts)], facts.pricesIncludeTax);
  const { pricesIncludeTax, currency } = facts;
  const { netMinor, taxMinor, grossMinor, taxes } = invoiceTotals({ ...facts, lines });
  const { costMinor, complete } = costOf(lines);
  const margin = complete ? marginBp(netMinor, costMinor) : null;
  const unpriced = parts.filter((p) => p.unpriced).map((p) => p.code);
  const warnings = [
    ...unpriced.map(
      (code) => `Part ${code} has no price and stands at 0: enter its cost or price before sending.`,
    ),
    ...marginWarnings(lines, margin, facts.minimumMarginBp),
  ];
  return {
    currency,
    pricesIncludeTax,
    taxRegime: facts.taxRegime,
    lines,
    netMinor,
    taxMinor,
    grossMinor,
    taxes,
    costMinor,
    marginBp: margin,
    costKnown: complete,
    warnings,
    unpriced,
    because: wholeReasons(facts),
  };
}
