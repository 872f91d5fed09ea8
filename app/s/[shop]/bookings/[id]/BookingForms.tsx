"use client";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { AroundFields } from "../AroundFields";
import { changeBooking, giveUpBooking, takeUpBooking } from "../actions";
import { SlotFields, type SlotFieldsProps } from "../SlotFields";

export interface BookingFormsProps extends SlotFieldsProps {
  shop: string;
  id: number;
  version: number;
  cancelled: boolean;
  minutes: number;
  dropOff: string;
  pickUp: string;
  note: string;
}

/** Moving and cancelling a booking, or taking a cancelled one up again. */
export function BookingForms({
  shop,
  id,
  version,
  cancelled,
  minutes,
  dropOff,
  pickUp,
  note,
  ...place
}: BookingFormsProps) {
  const hidden = { id: String(id), version: String(version) };
  if (cancelled)
    return (
      <Section title="Take it up again">
        <Form action={takeUpBooking} shop={shop} hidden={hidden} label="Take it up again">
          <p className="mb-3">It gets its old time back if bay and person are still free.</p>
          <SubmitButton>Take it up again</SubmitButton>
        </Form>
      </Section>
    );
  return (
    <div className="min-w-0">
      <Section title="Move it">
        <Form action={changeBooking} shop={shop} hidden={hidden} label="Move the booking">
          <SlotFields {...place} />
          <AroundFields minutes={minutes} dropOff={dropOff} pickUp={pickUp} note={note} />
          <SubmitButton>Save the booking</SubmitButton>
        </Form>
      </Section>
      <Section title="Cancel it">
        <Form action={giveUpBooking} shop={shop} hidden={hidden} label="Cancel the booking">
          <TextField
            name="why"
            label="Why"
            hint="The customer is told when they have an email address; the reason stays in the shop."
          />
          <SubmitButton tone="danger">Cancel the booking</SubmitButton>
        </Form>
      </Section>
    </div>
  );
}
