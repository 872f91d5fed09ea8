import { Refusal } from "../refusal";
import { beam } from "./beam";
import { bestFirst } from "./bestFirst";
import { MOST_ITEMS } from "./itemSet";
import { polish } from "./polish";
import type { SequenceProblem } from "./problem";
import type { Work } from "./work";

export type { SequenceProblem };

export interface Sequenced {
  readonly order: readonly number[];
  readonly cost: number;
  /** No order costs less than this. */
  readonly bound: number;
  /** True when `cost` is proven least. */
  readonly exact: boolean;
}

/** What one plan may take: about 25 ms. */
export const MOST_WORK = 2_500_000;
/** What an order of anything else may take, enough to prove the published ones of a dozen items. */
const ANY_WORK = 30_000_000;
/** The parts of it that are kept for a good order where none can be proven least: to make one, and to make it better. */
const TO_MAKE = 0.25;
const TO_BETTER = 0.25;

/**
 * The order of least cost, or a good one with the best bound found where the work does not suffice to prove it: dynamic programming
 * over (set done, state), best first, for up to 52 items; then a beam search, and moving
 * its items about. Deterministic: equal problems give equal orders.
 * Refuses precedence that runs in a circle.
 */
export function leastOrder(problem: SequenceProblem, work: Work = { left: ANY_WORK }): Sequenced {
  refuseCircle(problem);
  const whole = work.left;
  const reserve = whole * (TO_MAKE + TO_BETTER);
  const found = problem.count <= MOST_ITEMS ? bestFirst(problem, work, reserve) : null;
  if (found?.order) return { order: found.order, cost: found.cost, bound: found.cost, exact: true };
  const all = Array.from({ length: problem.count }, (_, item) => item);
  const bound = found?.cost ?? problem.bound?.(all)(problem.start) ?? 0;
  // Long lists leave what the search for a proof would take.
  const first = beam(problem, work, (work.left * TO_BETTER) / (TO_MAKE + TO_BETTER));
  const good = polish(problem, first.order, work);
  return { ...good, bound: Math.min(bound, good.cost), exact: good.cost <= bound };
}

function refuseCircle({ count, before }: SequenceProblem): void {
  const waiting = before.map((items) => new Set(items).size);
  const after: number[][] = Array.from({ length: count }, () => []);
  for (const [item, items] of before.entries()) for (const one of new Set(items)) after[one]?.push(item);
  const done = waiting.flatMap((items, item) => (items === 0 ? [item] : []));
  for (const item of done)
    for (const next of after[item] ?? []) {
      waiting[next] = (waiting[next] ?? 0) - 1;
      if (waiting[next] === 0) done.push(next);
    }
  if (done.length < count)
    throw new Refusal(
      "The work cannot be put in order: some of it must come before itself.",
      "Take out one of the “after” entries.",
    );
}
