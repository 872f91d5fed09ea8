import type { WorkPlan } from "../plan/plan";
import { planWork } from "../plan/planWork";
import { MOST_WORK } from "../plan/sequence";
import { workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";

/**
 * Whole minutes that doing all of a plan in one visit saves, against a visit for each of the quote's works: each opened up and closed
 * by itself, in its own best order. Work that is done while a job has the bike open saves against a visit of its own. Nothing for one
 * work by itself: nobody opens a bike anew for each operation. All visits together take no more searching than one plan.
 */
export function savedByOneVisit(facts: QuoteFacts, plan: WorkPlan): number {
  const planned = new Set(plan.steps.flatMap((step) => (step.kind === "operation" ? [step.key] : [])));
  const operations = facts.recipe.operations.filter(({ key }) => planned.has(key));
  const visits = [...Map.groupBy(operations, ({ key }) => workOf(facts.works ?? [], key)).values()];
  if (visits.length < 2 && (facts.openings ?? []).length === 0) return 0;
  const minutes = visits.reduce((sum, own) => {
    const { minutes, gapMinutes } = planWork(own, facts.recipe.accesses, MOST_WORK / visits.length);
    return sum + minutes - gapMinutes;
  }, 0);
  return Math.max(0, minutes - plan.minutes);
}
