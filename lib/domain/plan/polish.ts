import type { SequenceProblem } from "./problem";
import type { Work } from "./work";

/** Items that are moved together. */
const LONGEST_BLOCK = 3;
/** What one step of a tried order takes, in units of work. */
const STEP = 5;

/**
 * An order made better by moving one to three neighbours to another place for as long as that saves and work is left. Only the
 * steps from the first place that changes to where the states agree again are looked at.
 */
export function polish(
  problem: SequenceProblem,
  start: readonly number[],
  work: Work,
): { order: readonly number[]; cost: number } {
  const { count, step } = problem;
  const before = problem.before.map((items) => new Set(items));
  const order = [...start];
  // The state before each place, and the cost of the step there.
  const states = [problem.start];
  const costs: number[] = [];
  const restate = (from: number) => {
    for (let at = from; at < count; at++) {
      const { state, cost } = step(states[at] ?? 0, order[at] ?? 0);
      costs[at] = cost;
      states[at + 1] = state;
    }
    work.left -= STEP * (count - from);
  };
  restate(0);

  /** What the order with these items from place `from` on saves. */
  const saving = (from: number, items: readonly number[]): number => {
    let saved = 0;
    let state = states[from] ?? 0;
    for (let at = from; at < count; at++) {
      if (at >= from + items.length && state === states[at]) break;
      work.left -= STEP;
      const next = step(state, items[at - from] ?? order[at] ?? 0);
      saved += (costs[at] ?? 0) - next.cost;
      state = next.state;
    }
    return saved;
  };
  const put = (from: number, items: readonly number[]) => {
    order.splice(from, items.length, ...items);
    restate(from);
  };
  /** The block of `length` from `from` moved to the left or right as far as precedence lets it; true once that saved. */
  const moved = (from: number, length: number): boolean => {
    const block = order.slice(from, from + length);
    const over: number[] = [];
    for (let at = from - 1; at >= 0 && work.left > 0; at--) {
      const other = order[at] ?? 0;
      if (block.some((item) => before[item]?.has(other))) break;
      over.unshift(other);
      const items = [...block, ...over];
      if (saving(at, items) <= 0) continue;
      put(at, items);
      return true;
    }
    over.length = 0;
    for (let at = from + length; at < count && work.left > 0; at++) {
      const other = order[at] ?? 0;
      if (block.some((item) => before[other]?.has(item))) break;
      over.push(other);
      const items = [...over, ...block];
      if (saving(from, items) <= 0) continue;
      put(from, items);
      return true;
    }
    return false;
  };
  for (let better = true; better; ) {
    better = false;
    for (let length = 1; length <= LONGEST_BLOCK; length++)
      for (let from = 0; from + length <= count && work.left > 0; from++)
        if (moved(from, length)) better = true;
  }
  return { order, cost: costs.reduce((sum, cost) => sum + cost, 0) };
}
