import { PlanStrip } from "@/app/_ui/PlanStrip";
import { Section } from "@/app/_ui/Section";
import type { PlanShown } from "./shown/plan";

/** The work in its order, openings bracketed. */
export function WorkPlanSection({ plan }: { plan: PlanShown }) {
  if (plan.steps.length === 0) return null;
  return (
    <Section title={plan.title}>
      <PlanStrip
        title="Work plan"
        description={plan.description}
        steps={plan.steps}
        brackets={plan.brackets}
      />
    </Section>
  );
}
