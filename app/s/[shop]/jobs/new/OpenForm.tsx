"use client";
import { useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { YES_HOWS, YES_WORDS } from "@/lib/schemas/agreementWords";
import { openAJob } from "./actions";

interface Choice {
  readonly value: string;
  readonly label: string;
}

interface Props {
  slug: string;
  bikeId: number;
  customer: string;
  currency: string;
  grades: readonly Choice[];
  /** Finished jobs of the bike. */
  earlier: readonly Choice[];
  /** The job it comes back from, where that is known. */
  of: string;
}

/** What is to be done, and what the job stands on. */
export function OpenForm({ slug, bikeId, customer, currency, grades, earlier, of }: Props) {
  const [kind, setKind] = useState(of ? "comeback" : "word");
  return (
    <Form
      action={openAJob}
      shop={slug}
      hidden={{ bikeId: String(bikeId) }}
      label="Open a job"
      className="max-w-[40rem]"
    >
      <Section title="What is to be done">
        <TextField
          name="title"
          label="In a few words"
          hint="Have a look: stalls when hot"
          required
          maxLength={120}
        />
        <TextArea name="plain" label="What was said about it" rows={2} maxLength={2000} />
        <div className="grid grid-cols-2 gap-x-4">
          <TextField
            name="minutes"
            label="Minutes planned"
            hint="Empty: nobody knows yet"
            inputMode="numeric"
            mono
          />
          <SelectField name="grade" label="Grade" options={grades} initial={grades[0]?.value} />
        </div>
      </Section>
      <div
        onChange={(event) => {
          if (event.target instanceof HTMLInputElement && event.target.name === "kind")
            setKind(event.target.value);
        }}
      >
        <ChoiceField
          name="kind"
          label="It stands on"
          initial={kind}
          options={[
            { value: "word", label: "A yes by word", detail: "Up to an amount; billed as worked" },
            {
              value: "comeback",
              label: "A comeback",
              detail: earlier.length > 0 ? "Of an earlier job of this bike" : "This bike has no finished job",
              disabled: earlier.length === 0,
            },
            { value: "ownBike", label: "The shop's own bike", detail: "Nobody is invoiced" },
          ]}
        />
      </div>
      {kind === "word" && (
        <Section title="The yes">
          <TextField name="saidBy" label="Who said yes" initial={customer} required maxLength={120} />
          <SelectField
            name="how"
            label="How"
            options={YES_HOWS.map((how) => ({ value: how, label: YES_WORDS[how] }))}
          />
          <TextField
            name="upTo"
            label={`Up to, ${currency}`}
            hint="With tax. Going past it needs another yes."
            inputMode="decimal"
            required
            mono
          />
        </Section>
      )}
      {kind === "comeback" && (
        <Section title="The comeback">
          <SelectField name="comebackOfId" label="Comes back from" options={earlier} initial={of} />
          <ChoiceField
            name="charged"
            label="Charged"
            initial="nothing"
            options={[
              { value: "nothing", label: "Nothing" },
              { value: "part", label: "In part" },
              { value: "full", label: "In full" },
            ]}
          />
          <TextField
            name="percent"
            label="In part: percent that is charged"
            inputMode="decimal"
            className="max-w-56"
            mono
          />
          <TextField
            name="why"
            label="Why"
            hint="It may be printed on the invoice"
            required
            maxLength={200}
          />
        </Section>
      )}
      <SubmitButton>Open the job</SubmitButton>
    </Form>
  );
}
