import { monitorEventLoopDelay } from "node:perf_hooks";

type IntervalHistogram = ReturnType<typeof monitorEventLoopDelay>;

export interface LoopDelay {
  /** How late the event loop came to its work in the last minutes, in milliseconds. */
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly maxMs: number;
}

const RESOLUTION_MS = 10;
const FORGET_MS = 5 * 60_000;

// One histogram of the process, whichever copy of this module asks.
const kept = globalThis as unknown as { throttlewrightLoop?: IntervalHistogram };

/** How late this process comes to its work; measured from the first time anyone asks. */
export function loopDelay(): LoopDelay {
  const measured = watchLoop();
  // What is measured holds the resolution itself.
  const ms = (nanoseconds: number) => Math.max(0, Math.round(nanoseconds / 1e5 - RESOLUTION_MS * 10) / 10);
  const at = (part: number) => (measured.count === 0 ? 0 : ms(measured.percentile(part)));
  return { p50Ms: at(50), p99Ms: at(99), maxMs: measured.count === 0 ? 0 : ms(measured.max) };
}

/** Begins to measure; done once when the server starts. */
export function watchLoop(): IntervalHistogram {
  if (!kept.throttlewrightLoop) {
    const histogram = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
    histogram.enable();
    setInterval(() => histogram.reset(), FORGET_MS).unref();
    kept.throttlewrightLoop = histogram;
  }
  return kept.throttlewrightLoop;
}
