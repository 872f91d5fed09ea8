import { PlanStrip } from "@/app/_ui/PlanStrip";
import { StepBar } from "@/app/_ui/StepBar";
import type { JobView } from "@/lib/data/jobs/get";
import { openings } from "./stepWords";

/** The work plan, and how far it has come. */
export function JobPlan({ steps }: { steps: JobView["steps"] }) {
  const next = steps.findIndex((step) => step.state === "todo");
  const done = steps.filter((step) => step.state !== "todo").length;
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  const label = `${done} of ${steps.length} steps done`;
  return (
    <>
      <p className="text-[14px] text-soft">
        {label} · <span className="font-mono">{minutes}</span> min planned
      </p>
      <StepBar
        label={label}
        steps={steps.map((step, at) => ({
          minutes: step.minutes,
          state: step.state !== "todo" ? "done" : at === next ? "now" : "ahead",
        }))}
      />
      <PlanStrip
        title="Work plan"
        description={`${steps.length} steps in their order, ${minutes} minutes, with what is open meanwhile.`}
        steps={steps.map(({ kind, name, minutes }) => ({
          kind: kind === "ride" ? "operation" : kind,
          name,
          minutes,
        }))}
        brackets={openings(steps)}
      />
    </>
  );
}
