import type { Demand } from "./clauses";
import { connected, neighbours } from "./connected";
import type { Constraint, Question } from "./question";
import { type Given, type Solver, solverOf } from "./solve";

/** An option no bike and no choice can have, or (`option` null) a package of which nothing can be chosen; and why. */
export interface DeadEnd {
  readonly option: string | null;
  /**
   * A smallest set of rules and groups that already makes it one; empty where finding one would take too long. Null where it was
   * not decided within the limit whether it is a dead end.
   */
  readonly clash: readonly Constraint[] | null;
}

/** Most dead ends that are named: whoever put these right asks again. */
const MOST_NAMED = 20;
/** How many sets are tried, and steps taken, in all while looking for smaller clashes. */
const MOST_TRIES = 300;
const STEPS_TO_EXPLAIN = 250_000;
/** What is kept back for each dead end, so that every one has some reason. */
const STEPS_FOR_FIRST = 20_000;

/** The first dead ends of a recipe, each with a smallest set of rules and groups that already makes it one. */
export function deadEnds(q: Question, { complete }: Solver, demands: readonly Demand[]): DeadEnd[] {
  const alive = new Set<string>();
  const decide = (given: Given): boolean | null => {
    const found = complete(given);
    if (found.can) for (const key of found.on) alive.add(key);
    return found.can;
  };
  const smallest = clashFinder(q, demands);
  const any = decide(new Map());
  if (any !== true) return [{ option: null, clash: any === null ? null : smallest(null) }];
  const dead: DeadEnd[] = [];
  for (const option of q.options) {
    if (alive.has(option)) continue;
    const can = decide(new Map([[option, { on: true }]]));
    if (can !== true) dead.push({ option, clash: can === null ? null : smallest(option) });
    if (dead.length >= MOST_NAMED) break;
  }
  return dead;
}

/**
 * Finds, for an option that is dead (null: for all of them), the fewest constraints that cannot all be kept. A smallest clash hangs
 * together and holds something of the option, or a group that demands a choice; so sets of one, two and three are tried only where
 * they do, while there are tries left. Larger ones are found by leaving out of a known clash each constraint that is not needed,
 * which gives a set with none to spare though perhaps not the fewest.
 */
function clashFinder(q: Question, demands: readonly Demand[]) {
  const [tries, steps] = [{ left: MOST_TRIES }, { left: STEPS_TO_EXPLAIN }];
  let known: { solver: Solver; near: number[][] } | undefined;
  return (option: string | null): readonly Constraint[] => {
    known ??= { solver: solverOf(q, steps, true, demands), near: neighbours(q.constraints.map(namesIn)) };
    const { solver, near } = known;
    const given: Given = new Map(option === null ? [] : [[option, { on: true }]]);
    steps.left = Math.max(steps.left, STEPS_FOR_FIRST);
    let spare = solver.against(given) ?? [];
    for (const c of spare) {
      if (steps.left <= STEPS_FOR_FIRST) break;
      spare =
        solver.against(
          given,
          spare.filter((other) => other !== c),
        ) ?? spare;
    }
    const seeds = [...q.constraints.entries()].filter(([, c]) =>
      option === null ? c.kind === "group" && c.group.choose === "exactly one" : namesIn(c).includes(option),
    );
    const places = seeds.map(([at]) => at);
    for (let size = 1; size < Math.min(spare.length, 4); size++)
      for (const set of connected(near, places, size, tries)) {
        if (steps.left <= STEPS_FOR_FIRST) return spare;
        const among = set.flatMap((at) => q.constraints[at] ?? []);
        const found = solver.against(given, among);
        if (found) return found;
      }
    return spare;
  };
}

/** What ties a constraint to others: its options, and for a condition the fact that it asks of the model card. */
const namesIn = (c: Constraint): readonly string[] => {
  if (c.kind === "group") return c.options;
  if (c.rule.kind === "needs") return [c.rule.option, ...c.rule.anyOf];
  if (c.rule.kind === "excludes") return [c.rule.option, c.rule.other];
  return [c.rule.option, `fact ${c.rule.fact}`];
};
