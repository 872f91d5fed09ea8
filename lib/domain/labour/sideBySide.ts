import { type BillingUnit, billableMinutes } from "./billing";
import type { TimeEntry } from "./entries";

export interface StepMinutes {
  /** Null for time on the job outside its steps. */
  readonly stepId: number | null;
  readonly plannedMinutes: number;
  readonly spentMinutes: number;
  /** Spent minutes in billing units. Whether the agreed or the spent minutes go on the invoice is the quote's to say. */
  readonly billedMinutes: number;
  readonly running: boolean;
}

export interface SideBySide {
  readonly steps: readonly StepMinutes[];
  readonly plannedMinutes: number;
  readonly spentMinutes: number;
  readonly billedMinutes: number;
}

const MINUTE = 60_000;

/**
 * Planned, spent and billed minutes of each step, in the plan's order, then time outside steps if there is any. Entries of all people
 * on a step are added up before they are rounded, so that switching back and forth does not make a step dearer; a running entry counts
 * up to `now`. Spent minutes are exact to the millisecond and not rounded.
 */
export function sideBySide(
  steps: readonly { readonly id: number; readonly minutes: number }[],
  entries: readonly TimeEntry[],
  unit: BillingUnit,
  now: number,
): SideBySide {
  const lineOf = (stepId: number | null, plannedMinutes: number, own: readonly TimeEntry[]): StepMinutes => {
    const milliseconds = own.reduce(
      (sum, entry) => sum + Math.max(0, (entry.endedAt ?? now) - entry.startedAt),
      0,
    );
    const spentMinutes = milliseconds / MINUTE;
    return {
      stepId,
      plannedMinutes,
      spentMinutes,
      billedMinutes: billableMinutes(spentMinutes, unit),
      running: own.some((e) => e.endedAt === null),
    };
  };
  const known = new Set(steps.map((step) => step.id));
  const loose = entries.filter((entry) => entry.stepId === null || !known.has(entry.stepId));
  const lines = [
    ...steps.map((step) =>
      lineOf(
        step.id,
        step.minutes,
        entries.filter((entry) => entry.stepId === step.id),
      ),
    ),
    ...(loose.length > 0 ? [lineOf(null, 0, loose)] : []),
  ];
  const total = (pick: (line: StepMinutes) => number) => lines.reduce((sum, line) => sum + pick(line), 0);
  return {
    steps: lines,
    plannedMinutes: total((line) => line.plannedMinutes),
    spentMinutes: total((line) => line.spentMinutes),
    billedMinutes: total((line) => line.billedMinutes),
  };
}
