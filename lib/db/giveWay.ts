import { setImmediate as nextTurn } from "node:timers/promises";

/** So long may one turn of the event loop be held by queries of an embedded database. */
const TURN_MS = 5;

let begun: number | null = null;

function mark(): void {
  if (begun !== null) return;
  begun = performance.now();
  setImmediate(() => {
    begun = null;
  });
}

/**
 * Lets the event loop serve others where this turn has lasted long enough. An embedded database answers before it returns, so
 * that a chain of queries, however long, is one turn: an import of thousands of rows held every request for its whole time. Asked
 * before each of several computations it lets others be served between them.
 */
export async function giveWay(): Promise<void> {
  if (begun !== null && performance.now() - begun > TURN_MS) await nextTurn();
  mark();
}

/** Many rows one after the other, others served between them. */
export async function* inTurns<T>(rows: readonly T[]): AsyncGenerator<T, void, undefined> {
  for (const [at, row] of rows.entries()) {
    if (at % 100 === 99) await giveWay();
    yield row;
  }
}
