import { roundHalfAway } from "../money/round";
import type { WorkPlan } from "../plan/plan";
import { planWork } from "../plan/planWork";
import { whileOpen } from "../plan/whileOpen";
import type { FixedFact, PriceFacts } from "../pricing/facts";
import { ratesOf } from "../tax/rates";
import { workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";
import { handPartFacts } from "./handParts";
import { type Grades, labourOf, savedOf, unknownGradesOf, unsetGradesOf } from "./labour";
import { partFactsOf, partsCost } from "./partFacts";
import type { QuotePart } from "./partsWanted";
import { savedByOneVisit } from "./visits";

export interface PriceInput {
  readonly price: PriceFacts;
  /** Minutes that one visit saves in what is charged by time, and their price at the grade that opens. */
  readonly savedMinutes: number;
  readonly savedMinor: number;
  /** Names of labour grades whose rate the shop has not entered. */
  readonly unsetGrades: readonly string[];
  /** Labour grades the recipe names and the shop does not have. */
  readonly unknownGrades: readonly string[];
  /** Discounts agreed on lines that the quote no longer has. */
  readonly strayDiscounts: readonly string[];
}

/**
 * What the price is computed from: the plan's minutes by grade, the parts, and fixed prices in place of their options' work.
 * Minor units; costs and prices of a part in ten-thousandths. `chosen` are keys of options that can stand together.
 */
export function priceFactsOf(
  facts: QuoteFacts,
  chosen: readonly string[],
  plan: WorkPlan,
  parts: readonly QuotePart[],
): PriceInput {
  const options = facts.recipe.options.filter((o) => chosen.includes(o.key));
  const fixed = options.filter((o) => o.fixedPriceMinor !== undefined);
  const charged = new Set(
    options.filter((o) => o.fixedPriceMinor === undefined).flatMap((o) => o.operations),
  );
  const chargedPlan =
    fixed.length === 0
      ? plan
      : whileOpen(
          planWork(
            facts.recipe.operations.filter((o) => charged.has(o.key)),
            facts.recipe.accesses,
          ),
          facts.openings,
        );
  const savedMinutes = savedByOneVisit(facts, chargedPlan);
  const isFixed = (option: string) => fixed.some((o) => o.key === option);
  const grades = new Map(facts.grades.map((g) => [g.code, g]));
  const { terms } = facts;
  const book = {
    currency: terms.currency,
    locale: terms.locale,
    pricesIncludeTax: terms.pricesIncludeTax,
    taxRegime: terms.taxRegime,
    taxRates: ratesOf(terms),
    markupBands: facts.bands,
  };
  const price: PriceFacts = {
    ...book,
    labour: labourOf(chargedPlan, grades, facts.works),
    sharedMinutesSaved: savedMinutes,
    parts: [
      ...partFactsOf(
        facts,
        parts.filter((p) => p.byHand === undefined && !isFixed(p.option)),
        book,
      ),
      ...handPartFacts(facts, parts),
    ],
    fixed: fixed.map((option): FixedFact => {
      const own = option.operations.filter((key) => !charged.has(key));
      return {
        key: option.key,
        ...(facts.works ? { work: workOf(facts.works, option.key) } : {}),
        name: option.name,
        priceMinor: option.fixedPriceMinor ?? 0,
        costMinor:
          workCost(facts, own, grades) +
          partsCost(
            parts.filter((p) => p.option === option.key),
            terms.currency,
          ),
      };
    }),
    outside: [...(facts.outside ?? []), ...facts.agreed.lines.filter((l) => l.kind === "outside")],
    byHand: facts.agreed.lines.filter((l) => l.kind === "text"),
    sundriesBp: terms.sundriesBp,
    sundriesMaxMinor: terms.sundriesMaxMinor,
    ...agreedDiscount(facts),
    roundDownToMinor: facts.priceBook.roundDownToMinor,
    minimumMarginBp: terms.minimumMarginBp,
  };
  const keys = [
    ...price.labour.map((l) => l.key),
    ...price.parts.map((p) => p.key ?? p.code),
    ...[...price.fixed, ...price.outside, ...(price.byHand ?? [])].map((f) => f.key),
  ];
  const [standing, stray] = [true, false].map((there) =>
    facts.agreed.lineDiscounts.filter((d) => keys.includes(d.line) === there),
  );
  return {
    price: { ...price, lineDiscounts: standing ?? [] },
    strayDiscounts: (stray ?? []).map((d) => d.line),
    savedMinutes,
    savedMinor: savedOf(chargedPlan, savedMinutes, grades),
    unsetGrades: unsetGradesOf(chargedPlan, grades),
    unknownGrades: unknownGradesOf(plan, grades),
  };
}

/** An agreed share stands in for the customer's usual one; an agreed amount comes off on top of it. */
export function agreedDiscount({ agreed: { discount }, discountBp, discountClass }: QuoteFacts) {
  if (discount?.kind === "percent") return { discountBp: discount.bp, discountWhy: discount.why };
  const usual = { discountBp, discountWhy: discountClass };
  return discount ? { ...usual, amountOffMinor: discount.minor, amountOffWhy: discount.why } : usual;
}

function workCost(facts: QuoteFacts, keys: readonly string[], grades: Grades): number {
  const cost = facts.recipe.operations
    .filter((o) => keys.includes(o.key))
    .reduce((sum, o) => sum + (o.minutes * (grades.get(o.grade)?.costPerHourMinor ?? 0)) / 60, 0);
  return roundHalfAway(cost);
}
