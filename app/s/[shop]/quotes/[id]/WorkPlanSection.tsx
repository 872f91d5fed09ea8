import { minutesText } from "@/app/_ui/format";
import { PlanStrip } from "@/app/_ui/PlanStrip";
import { Section } from "@/app/_ui/Section";
import type { PlannedStep } from "@/lib/domain/plan/plan";

interface Props {
  plan: {
    readonly steps: readonly PlannedStep[];
    readonly minutes: number;
    readonly exact?: boolean;
    readonly gapMinutes?: number;
  };
  /** Against a visit for each work; told where there is any. */
  savedMinutes?: number;
}

/** The work in its order, openings bracketed. */
export function WorkPlanSection({ plan, savedMinutes = 0 }: Props) {
  if (plan.steps.length === 0) return null;
  const whole = minutesText(plan.minutes, "min", "h");
  const saved = savedMinutes > 0 ? ` · ${minutesText(savedMinutes, "min", "h")} saved by one visit` : "";
  const gap =
    plan.exact === false && plan.gapMinutes
      ? ` · no shorter order found, at most ${plan.gapMinutes} min less is possible`
      : "";
  return (
    <Section title={`Work plan · ${whole}${saved}${gap}`}>
      <PlanStrip
        title="Work plan"
        description={`The work in its order, ${whole} in all, with what is open for how long.`}
        steps={plan.steps.map(({ kind, name, minutes }) => ({
          kind,
          name,
          minutes,
        }))}
        brackets={bracketsOf(plan.steps)}
      />
    </Section>
  );
}

/** Each access from the step that opens it to the one that closes it, with its first closing check. */
function bracketsOf(steps: readonly PlannedStep[]) {
  return steps.flatMap((step, from) => {
    if (step.kind !== "open") return [];
    const to = steps.findIndex((later, at) => at > from && later.kind === "close" && later.key === step.key);
    if (to < 0) return [];
    const check = steps[to]?.checks[0];
    return [
      {
        from,
        to,
        label: `${step.access ?? step.name}${check ? ` · on closing: ${check.toLowerCase()}` : ""}`,
      },
    ];
  });
}
