import { log } from "@/lib/log/log";
import { directory, isDirectoryOpen } from "./directory";
import { noteChangesIn } from "./due";

/** The directory is told of changes at most so often: what was written meanwhile is told together. */
const PAUSE_MS = 2_000;
const AGAIN_MS = 30_000;

interface Changes {
  /** When something was first written in a shop since the directory was told, by database. */
  waiting: Map<string, Date>;
  timer: NodeJS.Timeout | null;
  toldAt: number;
  telling: Promise<void>;
}

// The server and the bundled pages hold a copy of this module each; one tells for both.
const kept = globalThis as unknown as { throttlewrightChanges?: Changes };
kept.throttlewrightChanges ??= { waiting: new Map(), timer: null, toldAt: 0, telling: Promise.resolve() };
const changes = kept.throttlewrightChanges;

/**
 * Notes that something was written in a shop, so that the rounds look whether it made anything due. The shop's database is where it
 * was made: the directory is told after the commit, and what a stop keeps from being told is found by the daily look.
 */
export function noteChange(database: string, at: Date): void {
  const known = changes.waiting.get(database);
  if (!known || at < known) changes.waiting.set(database, at);
  wake(changes.toldAt + PAUSE_MS - performance.now());
}

function wake(inMs: number): void {
  changes.timer ??= setTimeout(
    () => {
      changes.timer = null;
      tellChanges().catch((cause: unknown) => {
        log().warn({ err: cause }, "The directory could not be told of changes in shops; it is told later.");
        wake(AGAIN_MS);
      });
    },
    Math.max(0, inMs),
  ).unref();
}

/** Tells the directory now what it has not been told yet: before a process ends. */
export async function tellChanges(): Promise<void> {
  changes.telling = changes.telling.catch(() => undefined).then(tell);
  await changes.telling;
}

async function tell(): Promise<void> {
  const told = changes.waiting;
  changes.waiting = new Map();
  // Scripts and tests work on shops that no directory knows.
  if (told.size === 0 || !isDirectoryOpen()) return;
  changes.toldAt = performance.now();
  try {
    const rows = [...told].map(([database, at]) => ({ database, at }));
    await directory().write((tx) => noteChangesIn(tx, rows));
  } catch (cause) {
    for (const [database, at] of told) if (!changes.waiting.has(database)) changes.waiting.set(database, at);
    throw cause;
  }
}
