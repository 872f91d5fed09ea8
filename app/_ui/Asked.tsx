"use client";
import { ChoiceField } from "./ChoiceField";
import { DateField } from "./DateField";
import type { FormState } from "./formState";
import { SubmitButton } from "./SubmitButton";

/** What an act asks before it is done: answered here, and sent with all that was typed. */
export function Asked({ asks }: { asks: NonNullable<FormState["asks"]> }) {
  return (
    <section
      aria-label="To be answered first"
      className="mb-4 border-brass-fill border-l-4 bg-sheet px-4 py-3"
    >
      {asks.map(({ name, question, options, moment }) => (
        <div key={name}>
          <ChoiceField name={name} label={question} options={options} />
          {moment && <DateField kind="datetime-local" {...moment} />}
        </div>
      ))}
      <SubmitButton tone="second">Answer and go on</SubmitButton>
    </section>
  );
}
