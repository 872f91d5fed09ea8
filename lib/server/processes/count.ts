import { availableParallelism } from "node:os";
import { getHeapStatistics } from "node:v8";
import { allowedMemory } from "@/lib/db/memory";

const MB = 1024 * 1024;
const MOST = 4;
/** A worker with its pages and threads, and room for the shops that are open in it. */
const EACH_MB = 1024;
/** Less heap than this is no room for pages and open shops. */
const LEAST_HEAP_MB = 384;

export interface Machine {
  readonly cores: number;
  /** What this process and those it starts may take together. */
  readonly memoryMb: number;
  /** The most that V8 lets this process's heap become. */
  readonly heapMb: number;
}

export function thisMachine(): Machine {
  return {
    cores: availableParallelism(),
    memoryMb: Math.floor(allowedMemory() / MB),
    heapMb: Math.floor(getHeapStatistics().heap_size_limit / MB),
  };
}

/** How many processes serve where nobody said: one per core, at most four, and no more than there is memory for. */
export function usualProcesses({ cores, memoryMb, heapMb }: Machine): number {
  return Math.max(
    1,
    Math.min(MOST, cores, Math.floor(memoryMb / EACH_MB), Math.floor(heapMb / LEAST_HEAP_MB)),
  );
}

/** Each worker's part of a heap that was meant for one process. */
export function heapOfEach({ heapMb }: Machine, processes: number): number {
  return Math.max(LEAST_HEAP_MB, Math.floor(heapMb / processes));
}
