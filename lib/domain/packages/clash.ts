import { type Constraint, type Question, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { canComplete } from "./solve";

/** An option no bike and no choice can have, or (`option` null) a package of which nothing can be chosen; and why. */
export interface DeadEnd {
  readonly option: string | null;
  readonly clash: readonly Constraint[];
}

/** How many sets are tried in all while looking for smaller clashes: under a second of work for the largest recipe. */
const MOST_TRIES = 10_000;

/** Every dead end of a recipe, each with a smallest set of rules and groups that already makes it one. */
export function deadEnds(recipe: Recipe): DeadEnd[] {
  const q = questionOf(recipe, null);
  const tries = { left: MOST_TRIES };
  if (!canComplete(q, new Map())) return [{ option: null, clash: smallestClash(q, new Map(), tries) }];
  return q.options.flatMap((option) => {
    const on = new Map<string, Verdict>([[option, { on: true, because: "", by: "choice" }]]);
    return canComplete(q, on) ? [] : [{ option, clash: smallestClash(q, on, tries) }];
  });
}

/**
 * Fewest constraints that cannot all be kept. Tries all sets of one, two and three while there are `tries` left; larger ones are
 * found by leaving out each constraint that is not needed, which gives a set with none to spare though perhaps not the fewest.
 */
function smallestClash(
  q: Question,
  given: ReadonlyMap<string, Verdict>,
  tries: { left: number },
): Constraint[] {
  const fails = (constraints: readonly Constraint[]) => !canComplete({ ...q, constraints }, given);
  let spare: readonly Constraint[] = q.constraints;
  for (const c of q.constraints) {
    const without = spare.filter((other) => other !== c);
    if (fails(without)) spare = without;
  }
  for (let size = 1; size < Math.min(spare.length, 4); size++)
    for (const found of subsets(q.constraints, size)) {
      if (tries.left-- <= 0) return [...spare];
      if (fails(found)) return found;
    }
  return [...spare];
}

function* subsets<T>(items: readonly T[], size: number): Generator<T[]> {
  if (size === 0) yield [];
  else
    for (const [i, item] of items.entries())
      for (const rest of subsets(items.slice(i + 1), size - 1)) yield [item, ...rest];
}
