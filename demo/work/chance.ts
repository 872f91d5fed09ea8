/** Numbers that look like chance and are the same every time: the demo must be the same for the same day. */
export interface Chance {
  /** From `low` up to `high`, both possible, in whole steps. */
  between(low: number, high: number): number;
  /** From 0 up to, not including, 1. */
  share(): number;
  pick<T>(list: readonly [T, ...T[]] | readonly T[]): T;
}

export function chance(seed: number): Chance {
  let state = (seed * 2_654_435_761 + 97) >>> 0;
  // Mulberry32, a published 32-bit generator; good enough for names and minutes.
  const share = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    share,
    between: (low, high) => low + Math.floor(share() * (high - low + 1)),
    pick: <T>(list: readonly T[]): T => list[Math.floor(share() * list.length)] as T,
  };
}
