import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { saveValidUntil } from "../actions";
import type { Given } from "./given";

/** The last day on which this quote's prices hold. */
export function ValidUntilForm({ slug, hidden, validUntil }: Given & { validUntil: string }) {
  return (
    <Form action={saveValidUntil} shop={slug} hidden={hidden} label="Valid until">
      <DateField name="validUntil" label="Last day" initial={validUntil} required />
      <SubmitButton>Save the day</SubmitButton>
    </Form>
  );
}
