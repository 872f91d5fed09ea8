import { totalmem } from "node:os";
import { getHeapStatistics } from "node:v8";

const MIB = 2 ** 20;

/** What an open shop was measured to take (npm run bench:shops), with room for the pages that SQLite keeps of a larger one. */
const RESIDENT = 8 * MIB;
const HEAP = 0.5 * MIB;

/** A quarter is for open shops; the rest is the server's own and what requests need. */
const SHARE = 1 / 4;
/** Opening a shop costs a few milliseconds, so that fewer than these would be a nuisance and more of no use. */
const [LEAST, MOST] = [8, 500];

/** How many shops may be open in `memory` and with a heap of at most `heap`, both in bytes. */
export function shopsFitting(memory: number, heap: number): number {
  const fitting = Math.floor(Math.min((memory * SHARE) / RESIDENT, (heap * SHARE) / HEAP));
  return Math.min(MOST, Math.max(LEAST, fitting));
}

/** How many shops this process may keep open where SHOPS_OPEN does not say it. */
export function shopsThatFit(): number {
  // Where nothing limits the process, Node answers 0 or more than there is.
  const allowed = process.constrainedMemory() || Number.POSITIVE_INFINITY;
  return shopsFitting(Math.min(allowed, totalmem()), getHeapStatistics().heap_size_limit);
}
