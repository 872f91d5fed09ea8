import { Refusal } from "../refusal";
import { beam } from "./beam";
import { bestFirst } from "./bestFirst";
import { MOST_ITEMS } from "./itemSet";
import { readyItems, type SequenceProblem } from "./problem";

export type { SequenceProblem };

export interface Sequenced {
  readonly order: readonly number[];
  readonly cost: number;
  /** No order costs less than this. */
  readonly bound: number;
  /** True when `cost` is proven least. */
  readonly exact: boolean;
}

/** Up to this many items the order is always proven least; beyond it the search stops at `MOST_NODES`. */
export const EXACT_UP_TO = 16;
const MOST_NODES = 20_000;
const BEAM_WIDTH = 60;

/**
 * The order of least cost. Up to 16 items by dynamic programming over (set done, state), best first, and always exact;
 * up to 52 the same search within a node limit, and where that is not enough a beam search for a good order together with the best
 * bound found. Refuses precedence that runs in a circle.
 */
export function leastOrder(problem: SequenceProblem): Sequenced {
  refuseCircle(problem);
  const found =
    problem.count <= MOST_ITEMS
      ? bestFirst(problem, problem.count <= EXACT_UP_TO ? Infinity : MOST_NODES)
      : null;
  if (found?.order) return { order: found.order, cost: found.cost, bound: found.cost, exact: true };
  const all = Array.from({ length: problem.count }, (_, item) => item);
  const bound = found?.cost ?? problem.bound?.(problem.start, all) ?? 0;
  const good = beam(problem, BEAM_WIDTH);
  return { ...good, bound: Math.min(bound, good.cost), exact: good.cost <= bound };
}

function refuseCircle(problem: SequenceProblem): void {
  const done = new Set<number>();
  while (done.size < problem.count) {
    const ready = readyItems(problem, (item) => done.has(item));
    if (ready.length === 0)
      throw new Refusal(
        "The work cannot be put in order: some of it must come before itself.",
        "Take out one of the “after” entries.",
      );
    for (const item of ready) done.add(item);
  }
}
