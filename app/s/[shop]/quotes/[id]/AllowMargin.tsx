import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { allowMargin } from "../actions";
import type { Given } from "./given";

/** Lets a quote go below the least margin, for a reason that stays. */
export function AllowMargin({ slug, hidden }: Omit<Given, "currency">) {
  return (
    <Form action={allowMargin} shop={slug} hidden={hidden} label="Allow this margin" className="mt-3">
      <TextField name="reason" label="Why it may go out all the same" maxLength={300} required />
      <SubmitButton tone="second">Allow it</SubmitButton>
    </Form>
  );
}
