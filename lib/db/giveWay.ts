import { AsyncLocalStorage } from "node:async_hooks";
import { performance } from "node:perf_hooks";
import { setImmediate as nextTurn, setTimeout as pause } from "node:timers/promises";

/** So long may one turn of the event loop be held by queries of an embedded database. */
const TURN_MS = 5;
/** Background work looks so long whether others work, and goes on where they did for less than half of it. */
const LOOK_MS = 2;
/** So many times as long as a piece took does it stand back after it where they keep the server busy: a fifth of the time is its own. */
const STAND_BACK = 4;
/** The longest of these times: a piece may also have waited for something. */
const MOST_MS = 80;

/** A piece of background work, from where it last stood back. */
interface Piece {
  since: number;
}

interface Turns {
  /** When this turn's first query in the foreground began; null before it. */
  begun: number | null;
  /** Milliseconds that background work has taken of this process, and had taken when this turn began. */
  behindMs: number;
  behindBefore: number;
  readonly background: AsyncLocalStorage<Piece>;
}

/** Kept once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightTurns?: Turns };
kept.throttlewrightTurns ??= {
  begun: null,
  behindMs: 0,
  behindBefore: 0,
  background: new AsyncLocalStorage(),
};
const turns = kept.throttlewrightTurns;

function mark(): void {
  if (turns.begun !== null) return;
  turns.begun = performance.now();
  turns.behindBefore = turns.behindMs;
  setImmediate(() => {
    turns.begun = null;
  });
}

/**
 * Lets the event loop serve others where this turn has lasted long enough. An embedded database answers before it returns, so
 * that a chain of queries, however long, is one turn: an import of thousands of rows held every request for its whole time. Asked
 * before each of several computations it lets others be served between them.
 */
export async function giveWay(): Promise<void> {
  const piece = turns.background.getStore();
  if (piece) return standBack(piece);
  // What background work takes of a turn is not held against a request: each of its queries would wait for one more piece.
  const behind = turns.behindMs - turns.behindBefore;
  if (turns.begun !== null && performance.now() - turns.begun - behind > TURN_MS) await nextTurn();
  mark();
}

/**
 * Runs what takes seconds, as an import does, behind everything else: after each few milliseconds of queries it waits until the
 * server has nothing else to do, or for a bounded time, so that it ends however busy the server is.
 */
export function inBackground<T>(run: () => Promise<T>): Promise<T> {
  return turns.background.run({ since: performance.now() }, run);
}

async function standBack(piece: Piece): Promise<void> {
  const worked = performance.now() - piece.since;
  if (worked < TURN_MS) return;
  turns.behindMs += worked;
  const until = performance.now() + Math.min(worked * STAND_BACK, MOST_MS);
  for (;;) {
    const before = performance.eventLoopUtilization();
    const behind = turns.behindMs;
    // A page is made in many turns with empty ones between them, so that one empty turn says little.
    await pause(LOOK_MS);
    const others = performance.eventLoopUtilization(before).active - (turns.behindMs - behind);
    if (others < LOOK_MS / 2 || performance.now() >= until) break;
  }
  piece.since = performance.now();
}

/** Many rows one after the other, others served between them. */
export async function* inTurns<T>(rows: readonly T[]): AsyncGenerator<T, void, undefined> {
  for (const [at, row] of rows.entries()) {
    if (at % 100 === 99) await giveWay();
    yield row;
  }
}
