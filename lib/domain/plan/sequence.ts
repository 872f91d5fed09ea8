import { Refusal } from "../refusal";
import { bestFirst } from "./best-first";
import { beam } from "./beam";

/**
 * Putting items in the order of least total cost, where some come before others and the cost of an item depends on the
 * state the items before it left behind. The sequential ordering problem (Escudero 1988) is the case "state = last item".
 */
export interface SequenceProblem {
  readonly count: number;
  /** For each item, those that must come before it. */
  readonly before: readonly (readonly number[])[];
  /** States are whole numbers from 0 to 4 194 303; equal numbers mean equal futures. */
  readonly start: number;
  readonly step: (state: number, item: number) => { readonly state: number; readonly cost: number };
  /** A cost that the remaining items cannot fall below from this state. Absent: 0. */
  readonly bound?: (state: number, remaining: readonly number[]) => number;
  /** An item among `ready` that can be next without making the best order dearer, or undefined when it is not clear. */
  readonly settled?: (state: number, ready: readonly number[]) => number | undefined;
}

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
/** Above this many items a set no longer fits 31 bits and only the beam is tried. */
const SET_UP_TO = 30;
const MOST_NODES = 40_000;
const BEAM_WIDTH = 120;

/**
 * The order of least cost. Up to 16 items by dynamic programming over (set done, state), best first, and always exact;
 * beyond that the same search within a node limit, then a beam search for a good order together with the best
 * bound found. Refuses precedence that runs in a circle.
 */
export function leastOrder(problem: SequenceProblem): Sequenced {
  refuseCircle(problem);
  const found = problem.count <= SET_UP_TO ? bestFirst(problem, problem.count <= EXACT_UP_TO ? Infinity : MOST_NODES) : null;
  if (found?.order) return { order: found.order, cost: found.cost, bound: found.cost, exact: true };
  const all = Array.from({ length: problem.count }, (_, item) => item);
  const bound = found?.cost ?? problem.bound?.(problem.start, all) ?? 0;
  const good = beam(problem, BEAM_WIDTH);
  return { ...good, bound: Math.min(bound, good.cost), exact: good.cost <= bound };
}

/** Items whose predecessors are all done, in rising order. */
export function readyItems(problem: SequenceProblem, isDone: (item: number) => boolean): number[] {
  const ready: number[] = [];
  for (let item = 0; item < problem.count; item++)
    if (!isDone(item) && (problem.before[item] ?? []).every(isDone)) ready.push(item);
  return ready;
}

function refuseCircle(problem: SequenceProblem): void {
  const done = new Set<number>();
  while (done.size < problem.count) {
    const ready = readyItems(problem, (item) => done.has(item));
    if (ready.length === 0)
      throw new Refusal("The work cannot be put in order: some of it must come before itself.", "Take out one of the “after” entries.");
    for (const item of ready) done.add(item);
  }
}
