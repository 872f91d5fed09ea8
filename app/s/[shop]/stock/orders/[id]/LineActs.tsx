"use client";
import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { cancelLine, changeOrderLine, postpone } from "../actions";

export function ChangeLine({
  shop,
  lineId,
  code,
  unit,
  quantity,
}: {
  shop: string;
  lineId: number;
  code: string;
  unit: string;
  quantity: string;
}) {
  return (
    <Dialog trigger="Change" triggerTone="quiet" title={`Change ${code}`}>
      <Form action={changeOrderLine} shop={shop} hidden={{ lineId: String(lineId) }} label={`Change ${code}`}>
        <NumberField
          name="quantity"
          label="How much"
          unit={unit === "each" ? undefined : unit}
          initial={quantity}
          min={0}
          hint="0 takes the line off."
          required
        />
        <SubmitButton size="act">Change</SubmitButton>
      </Form>
    </Dialog>
  );
}

/** What can become of what is still open of a line: it comes later, or not at all. */
export function OpenLineActs({
  shop,
  lineId,
  code,
  dueOn,
  today,
}: {
  shop: string;
  lineId: number;
  code: string;
  dueOn: string;
  today: string;
}) {
  const hidden = { lineId: String(lineId) };
  return (
    <>
      <Dialog trigger="Comes another day" triggerTone="quiet" title={`${code} comes another day`}>
        <Form action={postpone} shop={shop} hidden={hidden} label="Another day">
          <DateField
            name="dueOn"
            label="Due on"
            initial={dueOn}
            min={today}
            hint="The rest stays on order; bookings wait for this day."
            required
          />
          <SubmitButton size="act">Keep it open</SubmitButton>
        </Form>
      </Dialog>
      <Dialog trigger="Will not come" triggerTone="quiet" title={`The rest of ${code} will not come`}>
        <Form action={cancelLine} shop={shop} hidden={hidden} label="Cancel the rest">
          <TextField name="why" label="Reason" required />
          <SubmitButton size="act" tone="danger">
            Cancel the rest
          </SubmitButton>
        </Form>
      </Dialog>
    </>
  );
}
