import { getHeapStatistics } from "node:v8";
import { allowedMemory } from "./memory";

const MIB = 2 ** 20;

/** What an open shop takes at most as a rule: npm run bench:shops measures half of it, before SQLite's pages are all in use. */
const EACH = 8 * MIB;

/** A quarter is for open shops; the rest is the server's own and what requests need. */
const SHARE = 1 / 4;
/** Opening a shop costs a few milliseconds, so that fewer than these would be a nuisance and more of no use. */
const [LEAST, MOST] = [8, 500];

/**
 * How many shops may be open in `memory` by a process whose heap may grow to `heap`, both in bytes. Of several processes on a
 * machine each is given a part of the heap, which says how large the whole of it is meant to be.
 */
export function shopsFitting(memory: number, heap: number): number {
  const fitting = Math.floor((Math.min(memory, 2 * heap) * SHARE) / EACH);
  return Math.min(MOST, Math.max(LEAST, fitting));
}

/** How many shops this process may keep open where SHOPS_OPEN does not say it. */
export function shopsThatFit(): number {
  return shopsFitting(allowedMemory(), getHeapStatistics().heap_size_limit);
}
