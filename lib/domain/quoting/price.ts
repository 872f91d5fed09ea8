import { roundHalfAway } from "../money/round";
import { amountOf } from "../money/scale";
import type { WorkPlan } from "../plan/plan";
import { planWork } from "../plan/planWork";
import { whileOpen } from "../plan/whileOpen";
import type { FixedFact, LabourFact, PartFact, PriceFacts } from "../pricing/facts";
import type { Grade, QuoteFacts } from "./facts";
import type { QuotePart } from "./parts";

export interface PriceInput {
  readonly price: PriceFacts;
  /** Minutes that opening once saves in what is charged by time, and their price at the grade that opens. */
  readonly savedMinutes: number;
  readonly savedMinor: number;
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
  const isFixed = (option: string) => fixed.some((o) => o.key === option);
  const grades = new Map(facts.grades.map((g) => [g.code, g]));
  const { terms } = facts;
  const price: PriceFacts = {
    currency: terms.currency,
    pricesIncludeTax: terms.pricesIncludeTax,
    taxRegime: terms.taxRegime,
    taxRates: { standardBp: terms.taxRateBp, taxed: { labour: terms.taxLabour, part: terms.taxParts } },
    labour: labourOf(chargedPlan, grades),
    sharedMinutesSaved: chargedPlan.minutesSaved,
    parts: mergedParts(parts.filter((p) => !isFixed(p.option))),
    fixed: fixed.map((option): FixedFact => {
      const own = option.operations.filter((key) => !charged.has(key));
      return {
        key: option.key,
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
    outside: facts.agreed.lines.filter((l) => l.kind === "outside"),
    byHand: facts.agreed.lines.filter((l) => l.kind === "text"),
    sundriesBp: terms.sundriesBp,
    sundriesMaxMinor: terms.sundriesMaxMinor,
    ...agreedDiscount(facts),
    roundDownToMinor: facts.priceBook.roundDownToMinor,
    minimumMarginBp: terms.minimumMarginBp,
    markupBands: facts.bands,
  };
  const keys = [
    ...price.labour.map((l) => l.key),
    ...price.parts.map((p) => p.code),
    ...[...price.fixed, ...price.outside, ...(price.byHand ?? [])].map((f) => f.key),
  ];
  const [standing, stray] = [true, false].map((there) =>
    facts.agreed.lineDiscounts.filter((d) => keys.includes(d.line) === there),
  );
  return {
    price: { ...price, lineDiscounts: standing ?? [] },
    strayDiscounts: (stray ?? []).map((d) => d.line),
    savedMinutes: chargedPlan.minutesSaved,
    savedMinor: savedOf(chargedPlan, grades),
    unknownGrades: unknownOf(plan, grades),
  };
}

/** An agreed share stands in for the customer's usual one; an agreed amount comes off on top of it. */
function agreedDiscount({ agreed: { discount }, discountBp, discountClass }: QuoteFacts) {
  if (discount?.kind === "percent") return { discountBp: discount.bp, discountWhy: discount.why };
  const usual = { discountBp, discountWhy: discountClass };
  return discount ? { ...usual, amountOffMinor: discount.minor, amountOffWhy: discount.why } : usual;
}

const EMPTY: Omit<Grade, "code"> = { name: "Work", ratePerHourMinor: 0, costPerHourMinor: 0 };

/** One line of work for each grade, then one of opening and closing for each grade that opens, named where several do. */
function labourOf(plan: WorkPlan, grades: ReadonlyMap<string, Grade>): LabourFact[] {
  const codes = [...new Set(plan.steps.map((s) => s.grade))];
  const opening = new Set(
    plan.steps.filter((s) => s.kind !== "operation" && s.minutes > 0).map((s) => s.grade),
  );
  const line = (code: string, opens: boolean): LabourFact[] => {
    const steps = plan.steps.filter(
      (s) => s.grade === code && (s.kind === "operation") !== opens && s.minutes > 0,
    );
    if (steps.length === 0) return [];
    const grade = grades.get(code) ?? { code, ...EMPTY };
    const named = grade.name.toLowerCase();
    const opened = opening.size > 1 ? `Opening up and closing, ${named}` : "Opening up and closing";
    return [
      {
        key: opens ? `opening-${code}` : `work-${code}`,
        name: opens ? opened : `Work, ${named}`,
        minutes: steps.reduce((sum, s) => sum + s.minutes, 0),
        grade: grade.name,
        ratePerHourMinor: grade.ratePerHourMinor,
        costPerHourMinor: grade.costPerHourMinor,
        because: steps.map((s) => ({
          fact: s.name,
          from: "work plan",
          effect: `${s.minutes} min`,
        })),
      },
    ];
  };
  return [...codes.flatMap((code) => line(code, false)), ...codes.flatMap((code) => line(code, true))];
}

/** The same part wanted twice is one printed line. */
function mergedParts(parts: readonly QuotePart[]): PartFact[] {
  const merged = new Map<string, PartFact>();
  for (const p of parts) {
    const quantityMilli = (merged.get(p.code)?.quantityMilli ?? 0) + p.quantityMilli;
    merged.set(p.code, {
      code: p.code,
      name: p.name,
      unit: p.unit,
      quantityMilli,
      unitCostE4: p.costE4,
      unitPriceE4: p.priceE4,
    });
  }
  return [...merged.values()];
}

function workCost(facts: QuoteFacts, keys: readonly string[], grades: ReadonlyMap<string, Grade>): number {
  const cost = facts.recipe.operations
    .filter((o) => keys.includes(o.key))
    .reduce((sum, o) => sum + (o.minutes * (grades.get(o.grade)?.costPerHourMinor ?? 0)) / 60, 0);
  return roundHalfAway(cost);
}

function partsCost(parts: readonly QuotePart[], currency: string): number {
  return parts.reduce(
    (sum, p) => sum + (p.costE4 === null ? 0 : amountOf(p.costE4, p.quantityMilli, currency)),
    0,
  );
}

/** Minutes saved, at the rate of the grade that opens most. */
function savedOf(plan: WorkPlan, grades: ReadonlyMap<string, Grade>): number {
  const minutes = new Map<string, number>();
  for (const s of plan.steps)
    if (s.kind !== "operation") minutes.set(s.grade, (minutes.get(s.grade) ?? 0) + s.minutes);
  const most = [...minutes].sort((a, b) => b[1] - a[1])[0]?.[0];
  const rate = most === undefined ? 0 : (grades.get(most)?.ratePerHourMinor ?? 0);
  return roundHalfAway((plan.minutesSaved * rate) / 60);
}

function unknownOf(plan: WorkPlan, grades: ReadonlyMap<string, Grade>): string[] {
  return [...new Set(plan.steps.map((s) => s.grade))].filter((code) => !grades.has(code));
}
