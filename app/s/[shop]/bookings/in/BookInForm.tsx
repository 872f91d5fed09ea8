"use client";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { Pick } from "@/lib/schemas/picks";
import { bookBikeIn } from "../actions";
import { SlotFields } from "../SlotFields";

export interface BookInFormProps {
  shop: string;
  minutes: number;
  /** What the fields for another time start from. */
  own: { day: string; time: string };
  times: readonly { value: string; label: string; detail: string }[];
  bays: readonly { id: number; name: string }[];
  people: readonly { id: number; name: string }[];
  bikes: readonly Pick[];
  customers: readonly Pick[];
}

/** Whose bike comes and what for, and one of the first times that work or another. */
export function BookInForm(props: BookInFormProps) {
  const { shop, minutes, own, times, bays, people, bikes, customers } = props;
  return (
    <Form action={bookBikeIn} shop={shop} hidden={{ minutes: String(minutes) }} label="Book the bike in">
      <Section title="Whose bike">
        <div className="grid grid-cols-[repeat(auto-fit,minmax(min(17rem,100%),1fr))] gap-x-5">
          <PickField
            shop={shop}
            from="bikes"
            name="bikeId"
            label="Bike"
            newest={bikes}
            blank="Not known yet"
            hint="Its owner is booked in with it."
          />
          <PickField
            shop={shop}
            from="customers"
            name="customerId"
            label="Customer"
            newest={customers}
            blank="Not known yet"
            hint="Where the bike is not known yet."
          />
          <TextField name="guestName" label="Name" maxLength={120} hint="Who called, if they are new here." />
          <TextField name="guestPhone" label="Phone" type="tel" maxLength={40} />
        </div>
        <TextField name="words" label="What for" maxLength={200} required hint="In their own words." />
      </Section>
      <Section title="First times that work">
        {times.length === 0 && (
          <p className="mb-3 text-soft">
            No bay and person are free together in the next 90 days. Look at the working hours and closures.
          </p>
        )}
        <ChoiceField
          name="choice"
          label="When"
          initial={times[0]?.value ?? "own"}
          options={[
            ...times,
            { value: "own", label: "Another time", detail: "The day, time, bay and person below." },
          ]}
        />
      </Section>
      <Section title="Another time">
        <SlotFields bays={bays} people={people} {...own} />
      </Section>
      <Section title="Around it">
        <div className="grid grid-cols-[repeat(auto-fit,minmax(min(17rem,100%),1fr))] gap-x-5">
          <DateField
            name="dropOff"
            label="The bike comes"
            kind="datetime-local"
            hint="Empty: as the work starts."
          />
          <DateField
            name="pickUp"
            label="It is fetched"
            kind="datetime-local"
            hint="Empty: when the work ends."
          />
        </div>
        <TextArea name="note" label="Note" />
      </Section>
      <SubmitButton size="act">Book it in</SubmitButton>
    </Form>
  );
}
