import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { CardStep } from "@/lib/data/jobs/card";
import { override } from "../../actions";

interface OverridesProps {
  /** Those that measured outside. */
  holds: CardStep["holdPoints"];
  /** Of their step. */
  version: number;
  slug: string;
}

/** For an owner: lets a hold point pass that measured outside its limits, with a reason that stays. */
export function Overrides({ holds, version, slug }: OverridesProps) {
  return holds.map((hold) => (
    <details key={hold.id} className="my-3 border-oxide border-l-4 pl-3">
      <summary className="inline-flex min-h-8 items-center text-oxide underline underline-offset-4 pointer-coarse:min-h-12">
        Let {hold.name} pass at {hold.readings[0]?.value} {hold.unit}
      </summary>
      <Form
        action={override}
        shop={slug}
        hidden={{ holdPointId: String(hold.id), version: String(version) }}
        label={`Override ${hold.name}`}
        keep={`override ${hold.id}`}
        className="mt-2"
      >
        <TextField
          name="reason"
          label="Why this is right"
          required
          maxLength={500}
          hint="It stays on the job with your name."
        />
        <SubmitButton tone="danger">Override the hold point</SubmitButton>
      </Form>
    </details>
  ));
}
