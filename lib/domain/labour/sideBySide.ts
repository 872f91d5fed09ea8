import { type BillingUnit, billableMinutes } from "./billing";
import type { TimeEntry } from "./entries";

export interface StepMinutes {
  /** Null for time on the job outside its steps. */
  readonly stepId: number | null;
  readonly plannedMinutes: number;
  readonly spentMinutes: number;
  readonly running: boolean;
}

/** Spent minutes of one labour grade, and what they come to in billing units. */
export interface GradeMinutes {
  readonly grade: string;
  readonly spentMinutes: number;
  readonly billedMinutes: number;
}

export interface SideBySide {
  readonly steps: readonly StepMinutes[];
  readonly plannedMinutes: number;
  readonly spentMinutes: number;
  readonly grades: readonly GradeMinutes[];
  readonly billedMinutes: number;
}

const MINUTE = 60_000;

/** The grade with most planned minutes; empty for no steps. */
function mainGradeOf(steps: readonly { readonly minutes: number; readonly grade: string }[]): string {
  const planned = new Map<string, number>();
  for (const step of steps) planned.set(step.grade, (planned.get(step.grade) ?? 0) + step.minutes);
  return [...planned].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "";
}

/**
 * The steps of a job at grades that the shop has: a step of none of them, such as a ride, counts to the grade with most planned
 * minutes (judgement), else to the shop's first; so does time outside the steps, at `main`.
 */
export function atGrades<Step extends { readonly minutes: number; readonly grade: string }>(
  steps: readonly Step[],
  grades: readonly string[],
): { steps: Step[]; main: string } {
  const most = mainGradeOf(steps.filter((step) => grades.includes(step.grade)));
  const main = most || (grades[0] ?? "");
  return {
    steps: steps.map((step) => (grades.includes(step.grade) ? step : { ...step, grade: main })),
    main,
  };
}

/**
 * Planned and spent minutes of each step, in the plan's order, then time outside steps if there is any; and what is billed of each
 * labour grade. Time is rounded to billing units once for each grade of the job, so that many short steps do not make it dearer;
 * `loose` is the grade of time outside the steps. A running entry counts up to `now`. Spent minutes are exact to the millisecond
 * and not rounded. Whether the agreed or the spent minutes go on the invoice is the quote's to say.
 */
export function sideBySide(
  steps: readonly { readonly id: number; readonly minutes: number; readonly grade: string }[],
  entries: readonly TimeEntry[],
  unit: BillingUnit,
  now: number,
  loose = "",
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
      running: own.some((e) => e.endedAt === null),
    };
  };
  const known = new Set(steps.map((step) => step.id));
  const outside = entries.filter((entry) => entry.stepId === null || !known.has(entry.stepId));
  const lines = [
    ...steps.map((step) =>
      lineOf(
        step.id,
        step.minutes,
        entries.filter((entry) => entry.stepId === step.id),
      ),
    ),
    ...(outside.length > 0 ? [lineOf(null, 0, outside)] : []),
  ];
  const total = (pick: (line: StepMinutes) => number) => lines.reduce((sum, line) => sum + pick(line), 0);
  const gradeOf = new Map(steps.map((step) => [step.id, step.grade]));
  const byGrade = Map.groupBy(
    lines.filter((line) => line.spentMinutes > 0),
    (line) => (line.stepId === null ? loose : (gradeOf.get(line.stepId) ?? loose)),
  );
  const grades = [...byGrade].map(([grade, own]): GradeMinutes => {
    const spentMinutes = own.reduce((sum, line) => sum + line.spentMinutes, 0);
    return { grade, spentMinutes, billedMinutes: billableMinutes(spentMinutes, unit) };
  });
  return {
    steps: lines,
    plannedMinutes: total((line) => line.plannedMinutes),
    spentMinutes: total((line) => line.spentMinutes),
    grades,
    billedMinutes: grades.reduce((sum, one) => sum + one.billedMinutes, 0),
  };
}
