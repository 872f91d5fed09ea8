import { folded } from "./oneBike";
import type { WorkPlan } from "./plan";

/**
 * A plan of work that is done while other work on the same bike opens and closes these accesses anyhow: opening and closing
 * them takes no minutes here, since the other work has them. `openings` are names of accesses; minutes are whole. Judgement:
 * what is one thing on a bike is opened and charged once, whichever of its work asks for it.
 */
export function whileOpen(plan: WorkPlan, openings: readonly string[] | undefined): WorkPlan {
  if (!openings || openings.length === 0) return plan;
  const open = new Set(openings.map(folded));
  const steps = plan.steps.map((step) =>
    step.kind !== "operation" && open.has(folded(step.access ?? step.name)) ? { ...step, minutes: 0 } : step,
  );
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  return { ...plan, steps, minutes };
}
