import { setTimeout as pause } from "node:timers/promises";
import type { DriverAdapterError } from "@prisma/driver-adapter-utils";

/** How long a lock of SQLite that somebody else holds is waited for. */
export const LOCK_WAIT = { mostMs: 5_000 };

/** Milliseconds between two tries: most locks are held for a few, and a lock that is held for long costs little to ask for. */
const PAUSES = [1, 2, 5, 10, 15, 25, 25, 50];

/**
 * Asks again while another connection holds the lock that this needs. SQLite's own waiting (`busy_timeout`) stops the whole
 * process, and with it all shops; here the event loop serves them meanwhile.
 */
export async function whenUnlocked<T>(ask: () => Promise<T>): Promise<T> {
  const until = performance.now() + LOCK_WAIT.mostMs;
  for (let tries = 0; ; tries++) {
    try {
      return await ask();
    } catch (cause) {
      if (!isLocked(cause) || performance.now() >= until) throw cause;
    }
    // Spread, or two processes that met once would meet again.
    await pause((PAUSES[tries] ?? 50) * (0.5 + Math.random()));
  }
}

/**
 * What the adapter makes of SQLITE_BUSY. Known by its name: a built page has a copy of the class of its own, which the adapter's errors
 * are no instances of.
 */
export function isLocked(cause: unknown): boolean {
  return (
    cause instanceof Error &&
    cause.name === "DriverAdapterError" &&
    (cause as DriverAdapterError).cause?.kind === "SocketTimeout"
  );
}
