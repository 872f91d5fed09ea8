import type { JobView } from "@/lib/data/jobs/get";
import { openings } from "./stepWords";

export interface PlanRows {
  readonly steps: readonly {
    readonly kind: "open" | "operation" | "close";
    readonly name: string;
    readonly minutes: number;
    readonly todo: boolean;
  }[];
  readonly brackets: ReturnType<typeof openings>;
}

/** What is drawn of a job's plan. */
export const planRows = (steps: JobView["steps"]): PlanRows => ({
  steps: steps.map(({ kind, name, minutes, state }) => ({
    kind: kind === "ride" ? "operation" : kind,
    name,
    minutes,
    todo: state === "todo",
  })),
  brackets: openings(steps),
});

export interface StepRow {
  readonly id: number;
  readonly position: number;
  readonly name: string;
  readonly state: JobView["steps"][number]["state"];
  /** Its hold points and why it was skipped; empty where there is neither. */
  readonly about: string;
  readonly planned: number;
  readonly spent: number;
}

export interface TimeOfSteps {
  readonly steps: readonly StepRow[];
  /** Minutes outside the steps; null where there are none. */
  readonly loose: number | null;
  /** By grade, where there are several. */
  readonly grades: readonly { readonly grade: string; readonly spent: number; readonly billed: number }[];
  readonly all: { readonly planned: number; readonly spent: number; readonly billed: number };
}

type Hold = JobView["steps"][number]["holdPoints"][number];

function held(hold: Hold): string {
  const last = hold.readings[0];
  if (hold.overrideReason) return `${hold.name}: overridden, ${hold.overrideReason}`;
  if (last?.value != null)
    return `${hold.name} ${last.value} ${hold.unit} ${last.inside ? "inside" : "outside"}`;
  return hold.passed ? `${hold.name}, yes` : `${hold.name}, open`;
}

/** Every step with its state, its hold points, and planned and spent minutes; what is billed is rounded once for each grade. */
export function timeOfSteps({ steps, time }: JobView): TimeOfSteps {
  const spentOn = new Map(time.steps.map((line) => [line.stepId, line.spentMinutes]));
  return {
    steps: steps.map((step) => ({
      id: step.id,
      position: step.position,
      name: step.name,
      state: step.state,
      about: [...step.holdPoints.map(held), step.reason].filter(Boolean).join(" · "),
      planned: step.minutes,
      spent: Math.round(spentOn.get(step.id) ?? 0),
    })),
    loose: spentOn.has(null) ? Math.round(spentOn.get(null) ?? 0) : null,
    grades:
      time.grades.length > 1
        ? time.grades.map((one) => ({
            grade: one.grade,
            spent: Math.round(one.spentMinutes),
            billed: one.billedMinutes,
          }))
        : [],
    all: { planned: time.plannedMinutes, spent: Math.round(time.spentMinutes), billed: time.billedMinutes },
  };
}
