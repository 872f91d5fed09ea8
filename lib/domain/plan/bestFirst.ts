import { Heap } from "./heap";
import { allItems, holds, itemsOf } from "./itemSet";
import type { SequenceProblem } from "./problem";

interface Node {
  readonly done: number;
  readonly state: number;
  readonly cost: number;
  readonly depth: number;
  readonly last: number;
  readonly from: Node | null;
}

/**
 * Dynamic programming over (set of items done, state), expanded in the order of cost plus bound (A*, Hart, Nilsson and
 * Raphael 1968): a bound that never says too much makes the first completed order a least one, and a (set, state) reached
 * again for less is opened again. Stops after `mostNodes`; `order` is then null and `cost` is a proven lower bound.
 */
export function bestFirst(
  problem: SequenceProblem,
  mostNodes: number,
): { order: number[] | null; cost: number } {
  const all = allItems(problem.count);
  const before = problem.before.map((items) => [...new Set(items)].reduce((set, item) => set + 2 ** item, 0));
  const best = new Map<number, Map<number, number>>();
  const heap = new Heap<Node>();
  // Many states have the same items left: their list is made once.
  const lists = new Map<number, readonly number[]>();
  const itemsLeft = (done: number): readonly number[] => {
    const list = lists.get(done) ?? itemsOf(all - done);
    lists.set(done, list);
    return list;
  };
  const push = (node: Node) => {
    const known = best.get(node.state) ?? new Map<number, number>();
    if ((known.get(node.done) ?? Infinity) <= node.cost) return;
    best.set(node.state, known.set(node.done, node.cost));
    const bound = problem.bound?.(node.state, itemsLeft(node.done)) ?? 0;
    heap.push(node, node.cost + bound, -node.depth);
  };
  push({ done: 0, state: problem.start, cost: 0, depth: 0, last: -1, from: null });
  let opened = 0;
  for (let top = heap.pop(); top; top = heap.pop()) {
    const { item: node, rank } = top;
    if (node.done === all) return { order: trace(node), cost: node.cost };
    if ((best.get(node.state)?.get(node.done) ?? Infinity) < node.cost) continue;
    if (++opened > mostNodes) return { order: null, cost: rank };
    const ready = itemsLeft(node.done).filter((item) => holds(node.done, before[item] ?? 0));
    const settled = problem.settled?.(node.state, ready);
    for (const item of settled === undefined ? ready : [settled]) {
      const { state, cost } = problem.step(node.state, item);
      push({
        done: node.done + 2 ** item,
        state,
        cost: node.cost + cost,
        depth: node.depth + 1,
        last: item,
        from: node,
      });
    }
  }
  throw new Error("the search ended without an order, although the precedence has no circle");
}

function trace(end: Node): number[] {
  const order: number[] = [];
  for (let node: Node | null = end; node && node.last >= 0; node = node.from) order.unshift(node.last);
  return order;
}
