/**
 * Sets of up to 52 items as one whole number (item i counts 2^i), so that a set can be a key of a map. Bit operations work on
 * 32 bits only, hence the two halves.
 */
export const MOST_ITEMS = 52;
const HALF = 26;
const SPLIT = 2 ** HALF;

/** The set of all items below `count`. */
export function allItems(count: number): number {
  return 2 ** count - 1;
}

/** The items of a set, rising. */
export function itemsOf(set: number): number[] {
  const items: number[] = [];
  const low = set % SPLIT;
  for (let rest = low; rest !== 0; rest &= rest - 1) items.push(31 - Math.clz32(rest & -rest));
  for (let rest = (set - low) / SPLIT; rest !== 0; rest &= rest - 1)
    items.push(HALF + 31 - Math.clz32(rest & -rest));
  return items;
}

/** A set's two halves as bits. */
export function halvesOf(items: readonly number[]): { readonly low: number; readonly high: number } {
  let [low, high] = [0, 0];
  for (const item of items)
    if (item < HALF) low |= 1 << item;
    else high |= 1 << (item - HALF);
  return { low, high };
}
