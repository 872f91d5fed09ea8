import { crossingsBound } from "./crossings";
import type { Work } from "./work";

export interface OpeningsInput {
  /** For each item: accesses that are open while it is done, and accesses that must be closed for it. By place. */
  readonly needs: readonly (readonly number[])[];
  readonly shuts: readonly (readonly number[])[];
  /** For each item, those that must come before it. */
  readonly before: readonly (readonly number[])[];
  /** Minutes of opening and closing each access once. */
  readonly charges: readonly number[];
  readonly exclude: (one: number, other: number) => boolean;
  /** Spent by what the bound takes. */
  readonly work: Work;
}

interface Least {
  /** Minutes where all accesses are closed now, and for each access how much less it is where it is open. */
  readonly closed: number;
  readonly saved: readonly number[];
  /** Whether that is at most one opening where it is closed. */
  readonly once: readonly boolean[];
  /** Whether it is one or more even where it is open. */
  readonly again: readonly boolean[];
}

/**
 * Minutes of opening that remaining items cannot fall below, given what is open: every access that is needed is opened once,
 * and once more for each time that precedence has an item which it is in the way of between two that need it. Each access is
 * counted by itself along the longest such chain, so the sum never says too much. To it comes what `crossingsBound` finds.
 */
export function openingsBound({ needs, shuts, before, charges, exclude, work }: OpeningsInput) {
  const order = topological(before);
  const leastOf = (remaining: readonly number[]): Least => {
    const saved = new Array<number>(charges.length).fill(0);
    const once = again.map(() => true);
    const reopened = again.map(() => false);
    let closed = 0;
    work.left -= 10 * remaining.length + charges.length;
    for (const item of remaining)
      for (const access of needs[item] ?? [])
        if (!again[access] && !saved[access]) {
          saved[access] = charges[access] ?? 0;
          closed += charges[access] ?? 0;
        }
    if (again.includes(true)) {
      const there = new Set(remaining);
      const items = order.filter((item) => there.has(item));
      for (const [access, charge] of charges.entries())
        if (again[access]) {
          const times = longest(items, access, false);
          const open = longest(items, access, true);
          closed += charge * times;
          saved[access] = charge * (times - open);
          once[access] = times <= 1;
          reopened[access] = open > 0;
        }
    }
    return { closed, saved, once, again: reopened };
  };
  const does = (lists: readonly (readonly number[])[]) => {
    const table = charges.map(() => new Uint8Array(lists.length));
    for (const [item, list] of lists.entries())
      for (const access of list) {
        const row = table[access];
        if (row) row[item] = 1;
      }
    return table;
  };
  const [needed, shut] = [does(needs), does(shuts)];
  // Openings along the longest chain that ends with the access open, and with it closed; below zero: no such chain.
  const open = new Int32Array(before.length);
  const shutAt = new Int32Array(before.length);
  function longest(items: readonly number[], access: number, openNow: boolean): number {
    let most = 0;
    open.fill(-1);
    shutAt.fill(-1);
    work.left -= 3 * items.length;
    const [needs, shuts] = [needed[access], shut[access]];
    for (const item of items) {
      let isOpen = openNow ? 0 : -1;
      let isShut = openNow ? -1 : 0;
      for (const earlier of before[item] ?? []) {
        isOpen = Math.max(isOpen, open[earlier] ?? -1);
        isShut = Math.max(isShut, shutAt[earlier] ?? -1);
      }
      if (needs?.[item]) {
        if (isShut >= 0) isOpen = Math.max(isOpen, isShut + 1);
        isShut = -1;
      } else if (shuts?.[item]) {
        isShut = Math.max(isShut, isOpen);
        isOpen = -1;
      }
      open[item] = isOpen;
      shutAt[item] = isShut;
      most = Math.max(most, isOpen, isShut);
    }
    return most;
  }
  // Where precedence never has an access opened again, it never has it among fewer items: needed is once, and open is none.
  const again = charges.map(
    (_, access) => longest(order, access, false) > 1 || longest(order, access, true) > 0,
  );
  const crossings = crossingsBound({ needs, charges, exclude, work });
  return (remaining: readonly number[]) => {
    const { closed, saved, once, again } = leastOf(remaining);
    const crossed = crossings(remaining, once, again);
    return (openNow: readonly number[]): number => {
      let minutes = closed;
      for (const access of openNow) minutes -= saved[access] ?? 0;
      for (const one of crossed) minutes += one(openNow);
      return minutes;
    };
  };
}

/** Items so that each stands after those before it; items in a circle are left out. */
function topological(before: readonly (readonly number[])[]): number[] {
  const done = new Set<number>();
  for (let grown = true; grown; ) {
    grown = false;
    for (const [item, earlier] of before.entries())
      if (!done.has(item) && earlier.every((one) => done.has(one))) {
        done.add(item);
        grown = true;
      }
  }
  return [...done];
}
