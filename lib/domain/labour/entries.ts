import { Refusal } from "../refusal";
import { overlaps } from "../schedule/intervals";

/** Time of one person on one step of a job. Instants are epoch milliseconds; `endedAt` null while it runs. */
export interface TimeEntry {
  readonly id: number;
  readonly staffId: number;
  readonly jobId: number;
  /** Null for work on the job that belongs to no step. */
  readonly stepId: number | null;
  readonly startedAt: number;
  readonly endedAt: number | null;
}

export interface Switch {
  /** The running entry to end, if one runs. */
  readonly stop: { readonly id: number; readonly endedAt: number } | null;
  /** The entry to start; null when the person is already on that step. */
  readonly start: Omit<TimeEntry, "id"> | null;
}

/**
 * Starting on a step ends whatever the person was on, at the same instant, so that one entry runs for each person. Pressing
 * again on the step that runs changes nothing. Refuses a start before the running entry began, and more than one running.
 */
export function switchTo(
  running: readonly TimeEntry[],
  to: { staffId: number; jobId: number; stepId: number | null },
  now: number,
): Switch {
  const current = runningOf(running, to.staffId);
  if (current && current.jobId === to.jobId && current.stepId === to.stepId)
    return { stop: null, start: null };
  const start = { ...to, startedAt: now, endedAt: null };
  return { stop: current ? ended(current, now) : null, start };
}

/** Ending what a person is on. Refuses when nothing runs. */
export function stop(
  running: readonly TimeEntry[],
  staffId: number,
  now: number,
): { readonly id: number; readonly endedAt: number } {
  const current = runningOf(running, staffId);
  if (!current) throw new Refusal("Nothing is running.", "Start on a step first.", {}, "conflict");
  return ended(current, now);
}

function ended(entry: TimeEntry, now: number) {
  if (now < entry.startedAt)
    throw new Refusal("Work cannot end before it began.", "Check the clock of this device.");
  return { id: entry.id, endedAt: now };
}

function runningOf(entries: readonly TimeEntry[], staffId: number): TimeEntry | undefined {
  const running = entries.filter((entry) => entry.staffId === staffId && entry.endedAt === null);
  if (running.length > 1)
    throw new Refusal(
      "Two time entries run for one person.",
      "End one of them by hand, with a reason.",
      {},
      "conflict",
    );
  return running[0];
}

/**
 * A correction by hand, checked: it has a reason, ends after it starts, is not in the future, and does not overlap another entry of
 * the same person. Returns the corrected entry.
 */
export function corrected(
  entry: TimeEntry,
  times: { startedAt: number; endedAt: number; reason: string },
  others: readonly TimeEntry[],
  now: number,
): TimeEntry {
  const { startedAt, endedAt, reason } = times;
  if (reason.trim() === "")
    throw new Refusal("A correction needs a reason.", "Say why the time is changed.", { reason: "Say why." });
  if (endedAt <= startedAt)
    throw new Refusal("Work must end after it starts.", "Correct the times.", {
      endedAt: "After the start.",
    });
  if (endedAt > now)
    throw new Refusal("Work cannot end in the future.", "Enter the time it really ended.", {
      endedAt: "Not in the future.",
    });
  const clash = others.some(
    (other) =>
      other.id !== entry.id &&
      other.staffId === entry.staffId &&
      overlaps(
        { startsAt: startedAt, endsAt: endedAt },
        { startsAt: other.startedAt, endsAt: other.endedAt ?? now },
      ),
  );
  if (clash)
    throw new Refusal(
      "The person was already on something else then.",
      "Correct that entry first.",
      {},
      "conflict",
    );
  return { ...entry, startedAt, endedAt };
}
