import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import { isSmall } from "@/lib/db/memory";
import { ownScript } from "@/lib/db/ownScript";
import { Refusal } from "@/lib/domain/refusal";
import { log } from "@/lib/log/log";
import { type Answer, unpacked } from "./answers";
import type { TASKS } from "./tasks";
import { type TurnLimits, Turns } from "./turns";

export type Tasks = typeof TASKS;
type Input<K extends keyof Tasks> = Parameters<Tasks[K]>[0];
type Value<K extends keyof Tasks> = Awaited<ReturnType<Tasks[K]>>;

export interface WorkOptions {
  /** From being asked for to the answer, the wait for a turn included. */
  readonly deadlineMs?: number | undefined;
  /** Of the request: work that nobody waits for any more is ended. */
  readonly signal?: AbortSignal | undefined;
}

const DEADLINE_MS = 15_000;
let usualMs = DEADLINE_MS;

/** Runs what nobody waits for at a page, beside other heavy work: tasks have as long as is said, where they say nothing else. */
export async function withDeadline<T>(deadlineMs: number, run: () => Promise<T>): Promise<T> {
  usualMs = deadlineMs;
  try {
    return await run();
  } finally {
    usualMs = DEADLINE_MS;
  }
}

/**
 * One thread is left to requests. Two at the least: a shop may hold all but one, so that another shop's page always finds a
 * thread however long the first one's work takes.
 */
const threads = () => Math.min(4, Math.max(2, availableParallelism() - 1));

const limits = (atOnce: number): TurnLimits => ({
  atOnce,
  atOncePerShop: Math.max(1, atOnce - 1),
  waiting: 32,
  waitingPerShop: 6,
});

/** How long a thread of a small machine stays without work. */
const IDLE_MS = 60_000;

/**
 * The inputs are bounded, and so is what a task takes of them (well under half of this). The limit is a last resort: V8 ends
 * the whole process more often than the thread when a thread reaches it (seen on Node 24), so deadlines come first.
 */
const MOST_MB = 1024;

export interface Workers {
  readonly pool: Piscina;
  readonly turns: Turns;
}

/** Worker threads that run the default export of a script of ours, and the turns at them. */
export function makeWorkers(script: string, atOnce: number, turns: TurnLimits = limits(atOnce)): Workers {
  const { file, execArgv } = ownScript(script);
  const pool = new Piscina({
    filename: file,
    // Started as they are needed, a thread costs its first task some tenths of a second, and while it is there about 35 MB.
    minThreads: isSmall() ? 0 : atOnce,
    idleTimeout: IDLE_MS,
    maxThreads: atOnce,
    atomics: "disabled",
    execArgv: [...execArgv],
    resourceLimits: { maxOldGenerationSizeMb: MOST_MB },
    // The event loop's thread comes first where there are more threads than processors. Elsewhere it is the process's own.
    niceIncrement: process.platform === "linux" ? 10 : 0,
  });
  // An idle thread that dies is replaced; nobody waits for it.
  pool.on("error", (cause: unknown) => log().error({ err: cause }, "a worker thread failed"));
  return { pool, turns: new Turns(turns) };
}

/** Kept once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightWorkers?: Workers | undefined };

function workers(): Workers {
  kept.throttlewrightWorkers ??= makeWorkers("lib/workers/thread.ts", threads());
  return kept.throttlewrightWorkers;
}

/** Starts the threads where the machine is not small, so that the first person who needs one does not wait for that. */
export function startWorkers(): void {
  workers();
}

/** Ends the threads; work under way is given up. */
export async function closeWorkers(): Promise<void> {
  const open = kept.throttlewrightWorkers;
  kept.throttlewrightWorkers = undefined;
  await open?.pool.destroy();
}

/**
 * Runs a task of lib/workers/tasks in a worker thread, in this shop's turn. Throws the task's Refusal; a Refusal of kind "busy"
 * where too much waits already, and of kind "refused" where the work took longer than its deadline and was ended.
 */
export function inWorker<K extends keyof Tasks>(
  shop: { readonly slug: string },
  task: K,
  input: Input<K>,
  options: WorkOptions = {},
): Promise<Value<K>> {
  return workIn(workers(), shop.slug, { task, input }, options) as Promise<Value<K>>;
}

/** The same for any set of threads. `message` is what they are given; they answer an Answer. */
export async function workIn(
  { pool, turns }: Workers,
  shop: string,
  message: unknown,
  { deadlineMs = usualMs, signal }: WorkOptions,
): Promise<unknown> {
  const late = AbortSignal.timeout(deadlineMs);
  const cut = signal ? AbortSignal.any([late, signal]) : late;
  const done = await turns.take(shop, cut);
  if (!done) throw busy();
  try {
    return unpacked((await pool.run(message, { signal: cut })) as Answer<unknown>);
  } catch (cause) {
    if (cut.aborted) throw ended(deadlineMs);
    throw cause;
  } finally {
    done();
  }
}

const busy = () =>
  new Refusal(
    "The server is busy with other long work.",
    "Try again in a moment. Nothing was changed.",
    {},
    "busy",
  );

const ended = (deadlineMs: number) =>
  new Refusal(
    `This took longer than ${Math.max(1, Math.round(deadlineMs / 1000))} seconds and was ended. Nothing was changed.`,
    "Ask for less at once, or try again when the server has less to do.",
  );
