import { readyItems, type SequenceProblem } from "./problem";
import { type Remaining, remainingOf } from "./remaining";
import type { Work } from "./work";

interface Partial {
  readonly from: Partial | null;
  readonly item: number;
  readonly remaining: Remaining;
  readonly state: number;
  readonly cost: number;
}

interface Candidate extends Omit<Partial, "remaining"> {
  readonly from: Partial;
  readonly rank: number;
}

const WIDEST = 60;
/** What looking at one continuation takes beside its uses, in units of work. */
const EACH = 25;

/**
 * A good order for long lists: item by item, only the most promising beginnings are kept (beam search), as many as the work left
 * allows, at least one. What would go below `reserve` is not spent.
 */
export function beam(
  problem: SequenceProblem,
  work: Work,
  reserve: number,
): { order: readonly number[]; cost: number } {
  const { uses } = problem;
  let kept: Partial[] = [
    { from: null, item: -1, remaining: remainingOf(problem), state: problem.start, cost: 0 },
  ];
  for (let length = 0; length < problem.count; length++) {
    const before = work.left;
    const cheapest = new Map<string, Candidate>();
    for (const from of kept) {
      const ready = readyItems(problem, (item) => from.remaining.done[item] === 1);
      work.left -= problem.count * 2;
      const settled = problem.settled?.(from.state, ready);
      for (const item of settled === undefined ? ready : [settled]) {
        const { state, cost } = problem.step(from.state, item);
        const total = from.cost + cost;
        const key = `${state} ${from.remaining.markAfter(item)}`;
        const open = uses?.openIn(state) ?? [];
        work.left -= EACH + open.length + (uses?.needs[item]?.length ?? 0);
        if ((cheapest.get(key)?.cost ?? Infinity) <= total) continue;
        cheapest.set(key, {
          from,
          item,
          state,
          cost: total,
          rank: total + from.remaining.guessAfter(item, open),
        });
      }
    }
    // What this length took for each that was kept, shared out over the lengths to come.
    const each = (before - work.left) / kept.length;
    const width = Math.floor((work.left - reserve) / (problem.count - length) / each);
    kept = [...cheapest.values()]
      .sort((a, b) => a.rank - b.rank)
      .slice(0, Math.max(1, Math.min(WIDEST, width)))
      .map(({ rank: _, ...one }) => ({ ...one, remaining: one.from.remaining.without(one.item) }));
  }
  const [best] = kept;
  if (!best) throw new Error("the beam ran empty, although the precedence has no circle");
  const order: number[] = [];
  for (let at: Partial | null = best; at && at.item >= 0; at = at.from) order.push(at.item);
  return { order: order.reverse(), cost: best.cost };
}
