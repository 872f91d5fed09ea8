import { totalmem } from "node:os";

const MIB = 2 ** 20;

/** Bytes that this process and those it starts may take together: the machine's, or fewer where the system limits them. */
export function allowedMemory(): number {
  // Where nothing limits the process, Node answers 0 or more than there is.
  return Math.min(process.constrainedMemory() || Number.POSITIVE_INFINITY, totalmem());
}

/** A machine with less than this is small: what costs memory comes as it is needed, and goes again. */
const SMALL = 1_024 * MIB;

export const isSmall = (memory = allowedMemory()): boolean => memory < SMALL;
