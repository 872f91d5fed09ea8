"use client";
import { type FormEvent, useState } from "react";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { LetterKind } from "@/lib/domain/letters/kinds";
import { fillLetter, type LetterText, letterFaults } from "@/lib/domain/letters/template";
import { putBack, saveIt } from "../actions";

interface Props {
  slug: string;
  kind: LetterKind;
  language: string;
  words: LetterText & { readonly version: number; readonly own: boolean };
  values: Readonly<Partial<Record<string, string>>>;
  /** Whether the values are of something in the shop. */
  real: boolean;
  placeholders: readonly { readonly name: string; readonly means: string }[];
}

/** The words of a letter to be changed, with the letter as it would be read beside them while they are. */
export function LetterForm({ slug, kind, language, words, values, real, placeholders }: Props) {
  const [typed, setTyped] = useState<LetterText>(words);
  const hidden = { kind, language, version: String(words.version) };
  const follow = (event: FormEvent<HTMLDivElement>) => {
    const { name, value } = event.target as HTMLInputElement;
    if (name === "subject" || name === "text") setTyped((before) => ({ ...before, [name]: value }));
  };
  const faults = Object.values(letterFaults(kind, typed));
  const read = fillLetter(typed, values);
  return (
    <div className="grid gap-x-10 rail:grid-cols-2">
      <div className="min-w-0" onInput={follow}>
        <Section title={words.own ? "Your words" : "The words as they come"}>
          <Form action={saveIt} shop={slug} hidden={hidden} label="Words of the letter">
            <TextField name="subject" label="Subject" initial={words.subject} required maxLength={150} />
            <TextArea
              name="text"
              label="Letter"
              hint="Plain text. A line whose placeholder has nothing to say is left out."
              initial={words.text}
              rows={20}
              required
              maxLength={4000}
            />
            <SubmitButton>Save the letter</SubmitButton>
          </Form>
          {words.own && (
            <Form action={putBack} shop={slug} hidden={hidden} label="Put back" className="mt-4">
              <SubmitButton tone="quiet">Put it back to the words it comes with</SubmitButton>
            </Form>
          )}
        </Section>
        <Section title="What may stand in it">
          <dl className="text-[15px]">
            {placeholders.map(({ name, means }) => (
              <div key={name} className="grid grid-cols-[9rem_minmax(0,1fr)] border-hair border-b py-1.5">
                <dt className="font-mono">{`{${name}}`}</dt>
                <dd>{means}</dd>
              </div>
            ))}
          </dl>
        </Section>
      </div>
      <Section title="As it is read">
        <p className="mb-2 text-[14px] text-soft">
          {real
            ? "With the newest of your own that it could be about; the link is made as it is sent."
            : "Your shop has nothing yet that it could be about, so it says what stands where."}
        </p>
        {faults.length > 0 && (
          <p role="status" className="mb-2 text-oxide">
            {faults.join(" ")}
          </p>
        )}
        <div lang={language} className="border-ink border-t-2 bg-sheet px-5 py-4">
          <p className="mb-3 font-semibold">{read.subject}</p>
          <p className="whitespace-pre-line break-words">{read.text}</p>
        </div>
      </Section>
    </div>
  );
}
