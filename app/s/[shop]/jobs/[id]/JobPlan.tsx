"use client";
import { PlanStrip } from "@/app/_ui/PlanStrip";
import { StepBar } from "@/app/_ui/StepBar";
import type { PlanRows } from "./stepRows";

/** The work plan, and how far it has come. A browser draws it from its rows, which weigh a tenth of the drawing. */
export function JobPlan({ steps, brackets }: PlanRows) {
  const next = steps.findIndex((step) => step.todo);
  const done = steps.filter((step) => !step.todo).length;
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
          state: !step.todo ? "done" : at === next ? "now" : "ahead",
        }))}
      />
      <PlanStrip
        title="Work plan"
        description={`${steps.length} steps in their order, ${minutes} minutes, with what is open meanwhile.`}
        steps={steps}
        brackets={brackets}
      />
    </>
  );
}
