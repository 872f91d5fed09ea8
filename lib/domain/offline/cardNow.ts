import type { KeptAct } from "./acts";

export interface StepSeen {
  readonly id: number;
  readonly todo: boolean;
}

/** The person's time, as known when a card was kept. */
export interface RunningSeen {
  readonly jobId: number;
  readonly startedAt: number;
}

export interface CardNow {
  /** Steps passed or skipped on this device that the server has not answered yet. */
  readonly waiting: ReadonlySet<number>;
  /** The step to do next; null where none is left. */
  readonly next: number | null;
  /** The act at which the job stops: nothing is passed after it until the server has it. */
  readonly stopped: KeptAct | null;
  /** Since when the person's time runs on this job, in the time of the device's clock; null where it does not. */
  readonly runningSince: number | null;
}

/**
 * A card as it stands once what waits on the device is counted in: `steps` and `running` as they were kept, `acts` those of the
 * person. A refused pass still counts, so that work goes on while it is decided.
 */
export function cardNow(
  jobId: number,
  steps: readonly StepSeen[],
  running: RunningSeen | null,
  acts: readonly KeptAct[],
): CardNow {
  const waiting = new Set<number>();
  let stopped: KeptAct | null = null;
  let since = running?.jobId === jobId ? running.startedAt : null;
  for (const act of [...acts].sort((a, b) => a.seq - b.seq)) {
    // Time started on another job stops it here.
    if (act.act === "start") since = act.jobId === jobId ? (since ?? act.at) : null;
    if (act.jobId !== jobId) continue;
    if (act.act === "stop") since = null;
    if (act.act === "pass" && act.stops) stopped = act;
    else if ((act.act === "pass" || act.act === "skip") && act.stepId !== null) waiting.add(act.stepId);
  }
  const next = steps.find((step) => step.todo && !waiting.has(step.id));
  return { waiting, next: next?.id ?? null, stopped, runningSince: since };
}
