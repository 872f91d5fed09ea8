import { readyItems, type SequenceProblem } from "./problem";

interface Partial {
  readonly order: readonly number[];
  readonly done: ReadonlySet<number>;
  readonly state: number;
  readonly cost: number;
  readonly rank: number;
}

/** A good order for long lists: item by item, only the `width` most promising beginnings are kept (beam search). */
export function beam(problem: SequenceProblem, width: number): { order: readonly number[]; cost: number } {
  const all = Array.from({ length: problem.count }, (_, item) => item);
  let kept: Partial[] = [{ order: [], done: new Set(), state: problem.start, cost: 0, rank: 0 }];
  for (let length = 0; length < problem.count; length++) {
    const cheapest = new Map<string, Partial>();
    for (const from of kept) {
      const ready = readyItems(problem, (item) => from.done.has(item));
      const settled = problem.settled?.(from.state, ready);
      for (const item of settled === undefined ? ready : [settled]) {
        const { state, cost } = problem.step(from.state, item);
        const done = new Set(from.done).add(item);
        const remaining = all.filter((other) => !done.has(other));
        const key = `${state} ${remaining.join()}`;
        const total = from.cost + cost;
        if ((cheapest.get(key)?.cost ?? Infinity) <= total) continue;
        const rest = problem.bound?.(state, remaining) ?? 0;
        cheapest.set(key, { order: [...from.order, item], done, state, cost: total, rank: total + rest });
      }
    }
    kept = [...cheapest.values()].sort((a, b) => a.rank - b.rank).slice(0, width);
  }
  const [best] = kept;
  if (!best) throw new Error("the beam ran empty, although the precedence has no circle");
  return best;
}
