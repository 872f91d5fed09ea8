import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { moveDrawerCash } from "./actions";

/** Cash that goes into the drawer or out of it and pays nothing. */
export function CashMove({
  shop,
  day,
  today,
  currency,
}: {
  shop: string;
  day: string;
  today: string;
  currency: string;
}) {
  return (
    <Dialog trigger="Cash in or out" title="Cash into the drawer or out of it">
      <Form action={moveDrawerCash} shop={shop} label="Cash in or out">
        <p className="mb-3 max-w-prose">
          What a customer pays is recorded with the invoice or at the counter. A wrong entry stays: put it
          right with one the other way.
        </p>
        <ChoiceField
          name="way"
          label="Which way"
          initial="out"
          options={[
            { value: "out", label: "Taken out" },
            { value: "in", label: "Put in" },
          ]}
        />
        <TextField name="amount" label={`Amount, ${currency}`} inputMode="decimal" mono required />
        <TextField name="reason" label="What for" maxLength={200} required />
        <DateField name="day" label="Day" initial={day} max={today} required />
        <SubmitButton>Record it</SubmitButton>
      </Form>
    </Dialog>
  );
}
