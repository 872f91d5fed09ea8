export interface OpeningsInput {
  /** For each item: accesses that are open while it is done, and accesses that must be closed for it. By place. */
  readonly needs: readonly (readonly number[])[];
  readonly shuts: readonly (readonly number[])[];
  /** For each item, those that must come before it. */
  readonly before: readonly (readonly number[])[];
  /** Minutes of opening and closing each access once. */
  readonly charges: readonly number[];
}

interface Least {
  /** Minutes where all accesses are closed now, and for each access how much less it is where it is open. */
  readonly closed: number;
  readonly saved: readonly number[];
}

/**
 * Minutes of opening that remaining items cannot fall below, given what is open: every access that is needed is opened once,
 * and once more for each time that precedence has an item which it is in the way of between two that need it. Each access is
 * counted by itself along the longest such chain, so the sum never says too much. Lists are remembered by identity: many states
 * share one, and the search hands in the same list for the same set.
 */
export function openingsBound({ needs, shuts, before, charges }: OpeningsInput) {
  const order = topological(before);
  const known = new Map<readonly number[], Least>();
  const leastOf = (remaining: readonly number[]): Least => {
    const saved = new Array<number>(charges.length).fill(0);
    let closed = 0;
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
          closed += charge * times;
          saved[access] = charge * (times - longest(items, access, true));
        }
    }
    const least = { closed, saved };
    known.set(remaining, least);
    return least;
  };
  const does = (lists: readonly (readonly number[])[]) =>
    lists.map((list) => Uint8Array.from(charges, (_, access) => (list.includes(access) ? 1 : 0)));
  const [needed, shut] = [does(needs), does(shuts)];
  // Openings along the longest chain that ends with the access open, and with it closed; below zero: no such chain.
  const open = new Int32Array(before.length);
  const shutAt = new Int32Array(before.length);
  function longest(items: readonly number[], access: number, openNow: boolean): number {
    let most = 0;
    open.fill(-1);
    shutAt.fill(-1);
    for (const item of items) {
      let [isOpen, isShut] = openNow ? [0, -1] : [-1, 0];
      for (const earlier of before[item] ?? []) {
        isOpen = Math.max(isOpen, open[earlier] ?? -1);
        isShut = Math.max(isShut, shutAt[earlier] ?? -1);
      }
      if (needed[item]?.[access]) [isOpen, isShut] = [Math.max(isOpen, isShut < 0 ? -1 : isShut + 1), -1];
      else if (shut[item]?.[access]) [isOpen, isShut] = [-1, Math.max(isShut, isOpen)];
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
  return (openNow: readonly number[], remaining: readonly number[]): number => {
    const { closed, saved } = known.get(remaining) ?? leastOf(remaining);
    return openNow.reduce((minutes, access) => minutes - (saved[access] ?? 0), closed);
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
