import { dayAfter, dayOf, instantOf } from "../schedule/localTime";
import { type WorkingTime, workingIntervals } from "../schedule/working";
import type { TimeEntry } from "./entries";

const MINUTE = 60_000;
/** Finishing a little late is no forgetting (judgement). */
const GRACE_MINUTES = 30;
/** How long work may run that began after the shift or on a day off (judgement). */
const OUTSIDE_SHIFT_MINUTES = 240;

export interface Forgotten {
  readonly entry: TimeEntry;
  /** When it probably ended: the end of the shift, in epoch milliseconds. */
  readonly suggestedEnd: number;
}

/** The end of the person's last shift on the local day of an instant; null on a day off or after that end. */
export function shiftEnd(at: number, working: WorkingTime): number | null {
  const { hours, closures, absences, zone } = working;
  const midnight = instantOf(dayAfter(dayOf(at, zone)), "00:00", zone);
  return workingIntervals(at, midnight, hours, closures, absences, zone).at(-1)?.endsAt ?? null;
}

/**
 * Running entries that went on past the person's shift by more than half an hour, or, begun outside a shift, for more than four
 * hours; with the end to suggest. `workingOf` gives each person's working time.
 */
export function forgottenEntries(
  entries: readonly TimeEntry[],
  workingOf: (staffId: number) => WorkingTime,
  now: number,
): Forgotten[] {
  return entries.flatMap((entry) => {
    if (entry.endedAt !== null) return [];
    const shift = shiftEnd(entry.startedAt, workingOf(entry.staffId));
    const suggestedEnd = shift ?? entry.startedAt + OUTSIDE_SHIFT_MINUTES * MINUTE;
    const late = shift === null ? suggestedEnd : suggestedEnd + GRACE_MINUTES * MINUTE;
    return now > late ? [{ entry, suggestedEnd }] : [];
  });
}
