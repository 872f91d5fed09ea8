import type { JobState } from "./jobs";

/** A job's state as a word and a shape, never colour alone. */
export interface StateWord {
  readonly word: string;
  readonly shape: "circle" | "diamond" | "square" | "filled" | "triangle" | "dash";
  readonly tone?: "ink" | "soft" | "brass" | "oxide" | "pine";
}

export const JOB_WORDS: Readonly<Record<JobState, StateWord>> = {
  waiting: { word: "waiting for a time", shape: "circle" },
  booked: { word: "booked", shape: "square" },
  inWork: { word: "in work", shape: "diamond", tone: "brass" },
  ride: { word: "to be ridden", shape: "triangle", tone: "brass" },
  ready: { word: "ready", shape: "filled", tone: "pine" },
  invoiced: { word: "invoiced", shape: "filled" },
  closed: { word: "closed", shape: "dash" },
  cancelled: { word: "cancelled", shape: "dash" },
};

const ARRIVED: StateWord = { word: "arrived", shape: "filled", tone: "ink" };
const STOPPED: StateWord = { word: "stopped at a hold point", shape: "diamond", tone: "oxide" };

/** What a job's state is called now: stopped and arrived show through. */
export function jobWord(job: { state: JobState; stopped: string; arrivedAt: Date | null }): StateWord {
  if (job.stopped && (job.state === "inWork" || job.state === "ride")) return STOPPED;
  if (job.arrivedAt && (job.state === "waiting" || job.state === "booked")) return ARRIVED;
  return JOB_WORDS[job.state];
}
