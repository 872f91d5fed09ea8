import type { SequenceProblem } from "./problem";

/** The items still to be done in a long list, and a quick guess at what they cost. */
export interface Remaining {
  /** 1 for an item that is done. */
  readonly done: Uint8Array;
  /** A number that stands for the items done once `item` is too: different sets have different ones, but for an odd chance. */
  readonly markAfter: (item: number) => number;
  /** What the items left after `item` use and is not among `open`, each thing once. 0 where nothing is known of it. */
  readonly guessAfter: (item: number, open: readonly number[]) => number;
  readonly without: (item: number) => Remaining;
}

export function remainingOf({ count, uses }: SequenceProblem): Remaining {
  const needs = uses?.needs ?? [];
  const charges = uses?.charges ?? [];
  const left = new Uint16Array(charges.length);
  for (const access of needs.flat()) left[access] = (left[access] ?? 0) + 1;
  const all = charges.reduce((sum, charge, access) => sum + (left[access] ? charge : 0), 0);
  const marks = Array.from({ length: count }, (_, item) => markOf(item));
  const make = (done: Uint8Array, used: Uint16Array, cost: number, mark: number): Remaining => {
    const lastOf = (item: number) => (needs[item] ?? []).filter((access) => used[access] === 1);
    return {
      done,
      markAfter: (item) => (mark + (marks[item] ?? 0)) % Number.MAX_SAFE_INTEGER,
      guessAfter: (item, open) => {
        const last = lastOf(item);
        const spent = last.reduce((sum, access) => sum + (charges[access] ?? 0), 0);
        return open.reduce(
          (sum, access) => sum - (used[access] && !last.includes(access) ? (charges[access] ?? 0) : 0),
          cost - spent,
        );
      },
      without: (item) => {
        const spent = lastOf(item).reduce((sum, access) => sum + (charges[access] ?? 0), 0);
        const [nowDone, nowUsed] = [done.slice(), used.slice()];
        nowDone[item] = 1;
        for (const access of needs[item] ?? []) nowUsed[access] = (nowUsed[access] ?? 1) - 1;
        return make(nowDone, nowUsed, cost - spent, (mark + (marks[item] ?? 0)) % Number.MAX_SAFE_INTEGER);
      },
    };
  };
  return make(new Uint8Array(count), left, all, 0);
}

/** A large number of its own for each item, so that sums of different ones hardly ever agree. */
function markOf(item: number): number {
  let bits = Math.imul(item + 1, 0x9e3779b1);
  const half = () => {
    bits = Math.imul(bits ^ (bits >>> 15), 0x85ebca6b);
    bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
    bits ^= bits >>> 16;
    return bits >>> 6;
  };
  return half() * 2 ** 26 + half();
}
