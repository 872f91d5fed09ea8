"use client";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { AroundFields } from "../AroundFields";
import { bookJob } from "../actions";
import { SlotFields } from "../SlotFields";

export interface BookFormProps {
  shop: string;
  jobId: number;
  minutes: number;
  /** What the fields for another time start from. */
  own: { day: string; time: string };
  times: readonly { value: string; label: string; detail: string }[];
  bays: readonly { id: number; name: string }[];
  people: readonly { id: number; name: string }[];
}

/** The first times that work, or one of your own. */
export function BookForm({ shop, jobId, minutes, own, times, bays, people }: BookFormProps) {
  return (
    <Form action={bookJob} shop={shop} hidden={{ jobId: String(jobId) }} label="Book the job">
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
        <AroundFields minutes={minutes} />
      </Section>
      <SubmitButton size="act">Book it</SubmitButton>
    </Form>
  );
}
