import { choose } from "../packages/choose";
import { needs } from "../packages/needs";
import { planWork } from "../plan/planWork";
import { whileOpen } from "../plan/whileOpen";
import { deposit } from "../pricing/invoice";
import { belowLeast } from "../pricing/margin";
import { priceQuote } from "../pricing/quote";
import { Refusal } from "../refusal";
import { acknowledgementsFor } from "./acknowledgements";
import type { QuoteFacts } from "./facts";
import { handPartsOf } from "./handParts";
import { groupViews } from "./options";
import { partsOf } from "./parts";
import { partsReady } from "./partsReady";
import { priceFactsOf } from "./price";
import { priceDayWarnings } from "./priceDays";
import type { QuoteView, QuoteWarning } from "./result";
import { targetOf } from "./target";
import {
  drawerWarnings,
  partWarnings,
  stops,
  targetWarnings,
  termWarnings,
  unpricedWarnings,
} from "./warnings";

/**
 * The quote engine: a whole quote from its facts. What follows from the ticks, the plan of the work, the settings, the parts
 * they come to and the price. Minutes are whole, money is in minor units, quantities in thousandths. Pure; the same facts give
 * the same quote. Refusals of single parts (a package that contradicts itself, settings that cannot be computed) become
 * warnings, so that the rest can still be seen; ticks that the package does not know fall away. Throws Refusal where no price
 * can be made at all: an unknown currency or tax regime, or a rate that is missing.
 */
export function computeQuote(facts: QuoteFacts): QuoteView {
  const known = facts.choices.filter((key) => facts.recipe.options.some((o) => o.key === key));
  const choice = choose(facts.recipe, known, facts.modelFacts);
  const taken = attempt(() => needs(facts.recipe, choice.chosen));
  const need = taken.value ?? needs(facts.recipe, []);
  const planned = attempt(() => whileOpen(planWork(need.operations, facts.recipe.accesses), facts.openings));
  const plan = planned.value ?? planWork([], facts.recipe.accesses);
  const chosen = taken.value ? choice.chosen : [];
  const target = targetOf(facts, need);
  const parts = partsOf(facts, chosen, target.sheet);
  const {
    price: priceFacts,
    savedMinutes,
    savedMinor,
    unknownGrades,
    unsetGrades,
    strayDiscounts,
  } = priceFactsOf(facts, planned.value ? chosen : [], plan, parts);
  const price = priceQuote(priceFacts);
  // Where everything is given, a price that nobody knows keeps nothing back.
  const unpriced = priceFacts.discountBp < 10_000 ? (price.unpriced ?? []) : [];
  const warnings = saidOnce([
    ...stops(choice, [taken.refused, planned.refused], unknownGrades, unsetGrades),
    ...choice.warnings.map((w) => ({ message: w.because, remedy: "", stops: false })),
    ...targetWarnings(facts, target),
    ...termWarnings(facts, strayDiscounts),
    ...priceDayWarnings(
      facts,
      priceFacts.parts.map((p) => p.code),
    ),
    ...drawerWarnings(facts, chosen),
    ...partWarnings(parts, unpriced),
    ...unpricedWarnings(unpriced, parts),
  ]);
  return {
    choice,
    groups: groupViews(facts, choice, target.sheet, parts),
    plan,
    target,
    parts,
    ready: partsReady(parts),
    price,
    savedMinutes,
    savedMinor,
    depositMinor: deposit(price.grossMinor, facts.agreed.deposit ?? { percentBp: facts.terms.depositBp }),
    cautions: need.cautions,
    acknowledgements: acknowledgementsFor(
      need.roadUse,
      need.changes.length > 0 || need.needle !== undefined || need.leaves !== undefined,
    ),
    warnings,
    belowLeast: belowLeast(price.netMinor, price.costMinor, facts.terms.minimumMarginBp),
    sendable:
      warnings.every((w) => !w.stops) &&
      (choice.chosen.length > 0 || facts.agreed.lines.length + handPartsOf(facts.agreed).length > 0),
  };
}

/** Two works that want the same part say the same of it. */
const saidOnce = (warnings: readonly QuoteWarning[]): QuoteWarning[] => [
  ...new Map(warnings.map((warning) => [warning.message, warning])).values(),
];

function attempt<T>(run: () => T): { value?: T; refused?: Refusal } {
  try {
    return { value: run() };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { refused: cause };
  }
}
