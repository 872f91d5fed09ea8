import type { Work } from "./work";

export interface OpenStatesInput {
  /** For each item: accesses that are open while it is done, and accesses that must be closed for it. By place. */
  readonly needs: readonly (readonly number[])[];
  readonly shuts: readonly (readonly number[])[];
  /** Minutes of opening and closing each access once. */
  readonly charges: readonly number[];
  /** Spent by what is worked out. */
  readonly work: Work;
}

interface Step {
  readonly state: number;
  readonly cost: number;
  /** True where nothing had to be opened or closed. */
  readonly free: boolean;
}

/** What working out one step, and one set of open accesses, takes in units of work. */
const STEP = 40;
const STATE = 80;

/**
 * Sets of open accesses, numbered in the order in which they are first met, and the way from one to the next: for an item all it
 * needs is open and what is in its way closed; the rest stays as it is.
 */
export function openStates({ needs, shuts, charges, work }: OpenStatesInput) {
  const numbers = new Map<bigint, number>();
  const masks: bigint[] = [];
  const open: Uint8Array[] = [];
  const maskOf = (places: readonly number[]) =>
    places.reduce((mask, place) => mask | (1n << BigInt(place)), 0n);
  const all = maskOf([...charges.keys()]);
  const [wanted, kept] = [needs.map(maskOf), shuts.map((places) => all ^ maskOf(places))];
  const numbered = (mask: bigint, from: Uint8Array, shut: readonly number[], opened: readonly number[]) => {
    const known = numbers.get(mask);
    if (known !== undefined) return known;
    work.left -= STATE;
    numbers.set(mask, masks.length);
    const there = from.slice();
    for (const place of shut) there[place] = 0;
    for (const place of opened) there[place] = 1;
    open.push(there);
    return masks.push(mask) - 1;
  };
  const nothing = new Uint8Array(charges.length);
  const stepFrom = (state: number, item: number): Step => {
    work.left -= STEP;
    const there = open[state] ?? nothing;
    const opened = needs[item] ?? [];
    let cost = 0;
    let free = true;
    for (const place of opened)
      if (!there[place]) {
        cost += charges[place] ?? 0;
        free = false;
      }
    const shut = shuts[item] ?? [];
    if (shut.some((place) => there[place])) free = false;
    const mask = ((masks[state] ?? 0n) & (kept[item] ?? all)) | (wanted[item] ?? 0n);
    return { state: numbered(mask, there, shut, opened), cost, free };
  };
  const steps: Step[][] = [];
  const lists: number[][] = [];
  return {
    numberOf: (places: readonly number[]): number => numbered(maskOf(places), nothing, [], places),
    openIn: (state: number): readonly number[] => {
      const known = lists[state];
      if (known) return known;
      work.left -= charges.length;
      const list: number[] = [];
      const there = open[state] ?? nothing;
      for (let place = 0; place < there.length; place++) if (there[place]) list.push(place);
      lists[state] = list;
      return list;
    },
    step: (state: number, item: number): Step => {
      steps[state] ??= [];
      const known = steps[state][item] ?? stepFrom(state, item);
      steps[state][item] = known;
      return known;
    },
  };
}
