import { minutesText } from "@/app/_ui/format";
import type { PlannedStep } from "@/lib/domain/plan/plan";

export interface PlanShown {
  readonly title: string;
  readonly description: string;
  readonly steps: readonly Pick<PlannedStep, "kind" | "name" | "minutes">[];
  /** The openings, from which step to which. */
  readonly brackets: readonly {
    readonly key: string;
    readonly from: number;
    readonly to: number;
    readonly label: string;
  }[];
}

interface Plan {
  readonly steps: readonly PlannedStep[];
  readonly minutes: number;
  readonly exact?: boolean;
  readonly gapMinutes?: number;
}

/** A work plan as it is shown; what one visit saves is told where it saves any. */
export function planShown(plan: Plan, savedMinutes = 0): PlanShown {
  const whole = minutesText(plan.minutes, "min", "h");
  const saved = savedMinutes > 0 ? ` · ${minutesText(savedMinutes, "min", "h")} saved by one visit` : "";
  const gap =
    plan.exact === false && plan.gapMinutes
      ? ` · no shorter order found, at most ${plan.gapMinutes} min less is possible`
      : "";
  return {
    title: `Work plan · ${whole}${saved}${gap}`,
    description: `The work in its order, ${whole} in all, with what is open for how long.`,
    steps: plan.steps.map(({ kind, name, minutes }) => ({ kind, name, minutes })),
    brackets: bracketsOf(plan.steps),
  };
}

/** Each access from the step that opens it to the one that closes it, with its first closing check. */
function bracketsOf(steps: readonly PlannedStep[]): PlanShown["brackets"] {
  return steps.flatMap((step, from) => {
    if (step.kind !== "open") return [];
    const to = steps.findIndex((later, at) => at > from && later.kind === "close" && later.key === step.key);
    if (to < 0) return [];
    const check = steps[to]?.checks[0];
    const label = `${step.access ?? step.name}${check ? ` · on closing: ${check.toLowerCase()}` : ""}`;
    return [{ key: step.key, from, to, label }];
  });
}
