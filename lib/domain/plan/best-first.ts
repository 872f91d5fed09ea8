import { Heap } from "./heap";
import type { SequenceProblem } from "./sequence";

interface Node {
  readonly done: number;
  readonly state: number;
  readonly cost: number;
  readonly depth: number;
  readonly last: number;
  readonly from: Node | null;
}

const STATES = 2 ** 22;

/**
 * Dynamic programming over (set of items done, state), expanded in the order of cost plus bound (A*, Hart, Nilsson and
 * Raphael 1968): a bound that never says too much makes the first completed order a least one, and a (set, state) reached
 * again for less is opened again. Stops after `mostNodes`; `order` is then null and `cost` is a proven lower bound.
 */
export function bestFirst(problem: SequenceProblem, mostNodes: number): { order: number[] | null; cost: number } {
  const all = 2 ** problem.count - 1;
  const before = problem.before.map((items) => items.reduce((mask, item) => mask | (1 << item), 0));
  const best = new Map<number, number>();
  const heap = new Heap<Node>();
  const push = (node: Node) => {
    const key = node.done * STATES + node.state;
    const known = best.get(key);
    if (known !== undefined && known <= node.cost) return;
    best.set(key, node.cost);
    const bound = problem.bound?.(node.state, itemsOf(all & ~node.done)) ?? 0;
    heap.push(node, node.cost + bound, -node.depth);
  };
  push({ done: 0, state: problem.start, cost: 0, depth: 0, last: -1, from: null });
  let opened = 0;
  for (let top = heap.pop(); top; top = heap.pop()) {
    const { item: node, rank } = top;
    if (node.done === all) return { order: trace(node), cost: node.cost };
    if ((best.get(node.done * STATES + node.state) ?? Infinity) < node.cost) continue;
    if (++opened > mostNodes) return { order: null, cost: rank };
    const ready = itemsOf(all & ~node.done).filter((item) => ((before[item] ?? 0) & ~node.done) === 0);
    const settled = problem.settled?.(node.state, ready);
    for (const item of settled === undefined ? ready : [settled]) {
      const { state, cost } = problem.step(node.state, item);
      push({ done: node.done | (1 << item), state, cost: node.cost + cost, depth: node.depth + 1, last: item, from: node });
    }
  }
  throw new Error("the search ended without an order, although the precedence has no circle");
}

function itemsOf(mask: number): number[] {
  const items: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) items.push(31 - Math.clz32(rest & -rest));
  return items;
}

function trace(end: Node): number[] {
  const order: number[] = [];
  for (let node: Node | null = end; node && node.last >= 0; node = node.from) order.unshift(node.last);
  return order;
}
