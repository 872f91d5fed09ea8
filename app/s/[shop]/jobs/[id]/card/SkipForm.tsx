import { Form } from "@/app/_ui/Form";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { CardStep } from "@/lib/data/jobs/card";
import { skip } from "../../actions";

/** Skipping a step, for a reason. What is held by a reading or a signature cannot be skipped. */
export function SkipForm({ step, jobId, slug }: { step: CardStep; jobId: number; slug: string }) {
  if (step.holdPoints.some((hold) => hold.kind !== "check" && !hold.passed && !hold.overrideReason))
    return null;
  return (
    <details className="mt-3">
      <summary className="in-line text-brass">Skip this step</summary>
      <Form
        action={skip}
        shop={slug}
        hidden={{
          jobId: String(jobId),
          stepId: String(step.id),
          version: String(step.version),
          ...keptAs("skip", jobId, `Skipped: ${step.name}`),
        }}
        label="Skip this step"
        keep={`skip ${step.id}`}
        className="mt-2"
      >
        <TextField name="reason" label="Why it is not done" required maxLength={500} />
        <SubmitButton tone="second">Skip it</SubmitButton>
      </Form>
    </details>
  );
}
