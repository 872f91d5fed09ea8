import { Heap } from "./heap";
import { allItems, halvesOf, itemsOf } from "./itemSet";
import type { SequenceProblem } from "./problem";
import type { Work } from "./work";

interface Node {
  /** The items done, and what is known of that set. */
  readonly done: number;
  readonly set: Done;
  readonly state: number;
  readonly cost: number;
  readonly depth: number;
  readonly last: number;
  readonly from: Node | null;
}

/** What holds for all nodes with the same items done. */
interface Done {
  /** Items left whose predecessors are all done. */
  readonly ready: readonly number[];
  readonly bound: (state: number) => number;
  /** The least cost found for each state. */
  readonly least: Map<number, number>;
}

/** What one set of items done, one node and one continuation take, in units of work. */
const SET = 150;
const NODE = 60;
const EACH = 40;

/**
 * Dynamic programming over (set of items done, state), expanded in the order of cost plus bound (A*, Hart, Nilsson and
 * Raphael 1968): a bound that never says too much makes the first completed order a least one, and a (set, state) reached
 * again for less is opened again. Stops where no more than `reserve` of the work is left; `order` is then null and `cost` a
 * proven lower bound.
 */
export function bestFirst(
  problem: SequenceProblem,
  work: Work,
  reserve: number,
): { order: number[] | null; cost: number } {
  const all = allItems(problem.count);
  const before = problem.before.map(halvesOf);
  const sets = new Map<number, Done>();
  const setOf = (done: number): Done => {
    const known = sets.get(done);
    if (known) return known;
    const left = itemsOf(all - done);
    work.left -= SET + 3 * left.length;
    const there = halvesOf(itemsOf(done));
    const ready = left.filter((item) => {
      const { low, high } = before[item] ?? { low: 0, high: 0 };
      return (there.low & low) === low && (there.high & high) === high;
    });
    const set = { ready, bound: problem.bound?.(left) ?? NOTHING, least: new Map() };
    sets.set(done, set);
    return set;
  };
  const heap = new Heap<Node>();
  const push = (done: number, state: number, cost: number, last: number, from: Node | null) => {
    work.left -= EACH;
    const set = setOf(done);
    if ((set.least.get(state) ?? Infinity) <= cost) return;
    set.least.set(state, cost);
    const depth = from ? from.depth + 1 : 0;
    heap.push({ done, set, state, cost, depth, last, from }, cost + set.bound(state), -depth);
  };
  push(0, problem.start, 0, -1, null);
  for (let top = heap.pop(); top; top = heap.pop()) {
    const { item: node, rank } = top;
    if (node.done === all) return { order: trace(node), cost: node.cost };
    if ((node.set.least.get(node.state) ?? Infinity) < node.cost) continue;
    work.left -= NODE;
    if (work.left <= reserve) return { order: null, cost: rank };
    const settled = problem.settled?.(node.state, node.set.ready);
    for (const item of settled === undefined ? node.set.ready : [settled]) {
      const { state, cost } = problem.step(node.state, item);
      push(node.done + 2 ** item, state, node.cost + cost, item, node);
    }
  }
  throw new Error("the search ended without an order, although the precedence has no circle");
}

const NOTHING = () => 0;

function trace(end: Node): number[] {
  const order: number[] = [];
  for (let node: Node | null = end; node && node.last >= 0; node = node.from) order.unshift(node.last);
  return order;
}
