import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { saveExtras } from "../actions";
import type { Given } from "./given";
import type { TermsShown } from "./shown/terms";

/** Which options the customer may add when accepting. */
export function ExtrasForm({ slug, hidden, extras }: Given & Pick<TermsShown, "extras">) {
  return (
    <Form action={saveExtras} shop={slug} hidden={hidden} label="Extras to offer">
      <p className="mb-2">The customer may tick these when accepting; the total follows on their page.</p>
      {extras.map((o) => (
        <CheckField key={o.key} name="extras[]" value={o.key} label={o.name} initial={o.offered} ruled />
      ))}
      <SubmitButton className="mt-3">Save the extras</SubmitButton>
    </Form>
  );
}
