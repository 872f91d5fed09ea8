import type { ComponentProps } from "react";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { WAIT_REASONS, WAIT_WORDS } from "@/lib/schemas/waitWords";
import { handJobOver, wait } from "../../waitActions";
import type { CardHead, CardScreen } from "./shown";

interface WaitFormProps {
  card: CardHead;
  slug: string;
  title: string;
  keep: string;
}

interface JobFormProps extends WaitFormProps, Pick<ComponentProps<typeof Form>, "action" | "children"> {}

function JobForm({ card, slug, title, ...form }: JobFormProps) {
  return <Form {...form} shop={slug} hidden={{ jobId: String(card.id) }} label={title} className="mt-2" />;
}

/** What a job waits for, and until when. */
export function WaitForm(of: WaitFormProps) {
  return (
    <JobForm action={wait} {...of}>
      <SelectField
        name="reason"
        label="For what"
        options={[
          { value: "", label: "choose…" },
          ...WAIT_REASONS.map((value) => ({ value, label: WAIT_WORDS[value] })),
        ]}
      />
      <DateField name="untilOn" label="Until" min={of.card.today} hint="Leave it open while nobody knows." />
      <TextField name="note" label="A word on it" maxLength={300} />
      <SubmitButton tone="second">Let it wait</SubmitButton>
    </JobForm>
  );
}

interface HandOverFormProps extends WaitFormProps {
  others: CardScreen["others"];
}

/** Whom a job is handed over to, with a word. */
export function HandOverForm({ others, ...of }: HandOverFormProps) {
  return (
    <JobForm action={handJobOver} {...of}>
      <SelectField
        name="toId"
        label="To whom"
        options={[
          { value: "", label: "choose…" },
          ...others.map((one) => ({ value: String(one.id), label: one.name })),
        ]}
      />
      <TextArea
        name="note"
        label="Where it stands"
        rows={3}
        maxLength={500}
        required
        hint="They see it on Today and on this card. Your time on the job stops; its bookings stay as they are."
      />
      <SubmitButton tone="second">Hand it over</SubmitButton>
    </JobForm>
  );
}
