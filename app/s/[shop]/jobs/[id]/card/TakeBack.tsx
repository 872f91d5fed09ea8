import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { CardStep } from "@/lib/data/jobs/card";
import { takeBack } from "../../actions";

/** Takes a pass back while nothing was done after it. */
export function TakeBack({ step, slug }: { step: CardStep; slug: string }) {
  return (
    <Form
      action={takeBack}
      shop={slug}
      hidden={{ stepId: String(step.id), version: String(step.version) }}
      className="mt-3"
      label="Take the pass back"
    >
      <SubmitButton tone="second">Take the pass back</SubmitButton>
    </Form>
  );
}
