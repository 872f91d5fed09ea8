import { type Constraint, type Question, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { canComplete } from "./solve";

/** An option no bike and no choice can have, or (`option` null) a package of which nothing can be chosen; and why. */
export interface DeadEnd {
  readonly option: string | null;
  readonly clash: readonly Constraint[];
}

/** Every dead end of a recipe, each with a smallest set of rules and groups that already makes it one. */
export function deadEnds(recipe: Recipe): DeadEnd[] {
  const q = questionOf(recipe, null);
  if (!canComplete(q, new Map())) return [{ option: null, clash: smallestClash(q, new Map()) }];
  return q.options.flatMap((option) => {
    const on = new Map<string, Verdict>([[option, { on: true, because: "", by: "choice" }]]);
    return canComplete(q, on) ? [] : [{ option, clash: smallestClash(q, on) }];
  });
}

/**
 * Fewest constraints that cannot all be kept. Tries all sets of one, two and three; larger ones are found by leaving
 * out each constraint that is not needed, which gives a set with none to spare though perhaps not the fewest.
 */
function smallestClash(q: Question, given: ReadonlyMap<string, Verdict>): Constraint[] {
  const fails = (constraints: readonly Constraint[]) => !canComplete({ ...q, constraints }, given);
  let spare: readonly Constraint[] = q.constraints;
  for (const c of q.constraints) {
    const without = spare.filter((other) => other !== c);
    if (fails(without)) spare = without;
  }
  for (let size = 1; size < Math.min(spare.length, 4); size++) {
    const found = subsets(q.constraints, size).find(fails);
    if (found) return found;
  }
  return [...spare];
}

function subsets<T>(items: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return items.flatMap((item, i) => subsets(items.slice(i + 1), size - 1).map((rest) => [item, ...rest]));
}
