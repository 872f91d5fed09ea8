import { monitorEventLoopDelay } from "node:perf_hooks";

/** Milliseconds, to a tenth. */
export interface EventLoopDelay {
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly p999Ms: number;
  /** The longest time for which nothing else was served. */
  readonly longestMs: number;
  /** How long has been measured. */
  readonly seconds: number;
}

const EVERY_MS = 5;

interface Watched {
  readonly histogram: ReturnType<typeof monitorEventLoopDelay>;
  since: number;
}

/** Kept once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightEventLoop?: Watched };

/** Begins to measure; again, it measures anew. */
export function watchEventLoop(): void {
  const found = kept.throttlewrightEventLoop;
  if (!found) {
    const histogram = monitorEventLoopDelay({ resolution: EVERY_MS });
    histogram.enable();
    kept.throttlewrightEventLoop = { histogram, since: performance.now() };
    return;
  }
  found.histogram.reset();
  found.since = performance.now();
}

/** What was measured is forgotten after this, so that the health page tells of now. */
const FORGOTTEN_MS = 5 * 60_000;

/** Measures for as long as the process runs. */
export function keepWatchingEventLoop(): void {
  watchEventLoop();
  setInterval(watchEventLoop, FORGOTTEN_MS).unref();
}

/** How late this process's event loop has been since it was last watched anew; null where nothing measures it. */
export function eventLoopDelay(): EventLoopDelay | null {
  const found = kept.throttlewrightEventLoop;
  if (!found || found.histogram.count === 0) return null;
  // What is recorded is the time between two beats; the beat itself is no delay.
  const late = (nanoseconds: number) => Math.max(0, Math.round(nanoseconds / 1e5 - 10 * EVERY_MS) / 10);
  const { histogram, since } = found;
  return {
    p50Ms: late(histogram.percentile(50)),
    p99Ms: late(histogram.percentile(99)),
    p999Ms: late(histogram.percentile(99.9)),
    longestMs: late(histogram.max),
    seconds: Math.round((performance.now() - since) / 1000),
  };
}
