/** A part that another one may have taken the place of. */
export interface Replaceable {
  readonly id: number;
  readonly replacedById?: number | null;
}

/** Longest chain of replacements that is followed or kept. */
export const MOST_REPLACEMENTS = 10;

/**
 * A part and those that took its place one after the other, itself first and the one that is made today last. `find` answers a part
 * by its id; one that it does not know ends the chain, and so would a circle.
 */
export function chainFrom<T extends Replaceable>(first: T, find: (id: number) => T | undefined): [T, ...T[]] {
  const chain: [T, ...T[]] = [first];
  let next = first.replacedById == null ? undefined : find(first.replacedById);
  while (next && chain.length <= MOST_REPLACEMENTS && !chain.includes(next)) {
    chain.push(next);
    next = next.replacedById == null ? undefined : find(next.replacedById);
  }
  return chain;
}

/** So much of one part of a chain. */
export interface Taken<T> {
  readonly part: T;
  readonly quantityMilli: number;
}

/**
 * What a chain is taken from: each older part as far as it is free, the oldest first, and the rest of the newest, there or not.
 * Quantities in thousandths; they add up to what is wanted.
 */
export function oldFirst<T>(
  chain: readonly [T, ...T[]],
  wantedMilli: number,
  freeOf: (part: T) => number,
): Taken<T>[] {
  let left = wantedMilli;
  const older = chain.slice(0, -1).flatMap((part): Taken<T>[] => {
    const quantityMilli = Math.max(0, Math.min(left, freeOf(part)));
    left -= quantityMilli;
    return quantityMilli > 0 ? [{ part, quantityMilli }] : [];
  });
  const newest = chain.at(-1) ?? chain[0];
  return left > 0 || older.length === 0 ? [...older, { part: newest, quantityMilli: left }] : older;
}
