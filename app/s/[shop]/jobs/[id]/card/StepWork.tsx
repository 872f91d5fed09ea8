import { lazy, type ReactNode, Suspense } from "react";
import type { CardStep } from "@/lib/data/jobs/card";
import { StepSettings } from "./StepSettings";
import { StepText } from "./StepText";

/** Few steps have them. */
const PartsBeside = lazy(async () => ({
  default: (await import("../../../_parts/PartsBeside")).PartsBeside,
}));

interface StepWorkProps {
  step: CardStep;
  /** Whether the step is still to do: what is to be set is told then. */
  todo: boolean;
  locale: string;
  /** The needles of the step. */
  needle: ReactNode;
}

/** What is done in a step: its words and cautions, what is set, and the parts and needles that it leaves otherwise. */
export function StepWork({ step, todo, locale, needle }: StepWorkProps) {
  return (
    <>
      <StepText step={step} />
      {todo && <StepSettings settings={step.settings} locale={locale} />}
      {step.described.length > 0 && (
        <Suspense>
          <PartsBeside
            caption="Parts that this step leaves otherwise"
            columns={["Found", "To make"]}
            rows={step.described.map(({ found, target, ...one }) => ({
              ...one,
              parts: [found?.part ?? null, target?.part ?? null],
            }))}
          />
        </Suspense>
      )}
      {needle}
    </>
  );
}
