"use client";
import { lazy, Suspense, useState } from "react";
import { ColumnFields } from "@/app/_ui/ColumnFields";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { useFormValue } from "@/app/_ui/formContext";
import { LogText } from "@/app/_ui/LogText";
import { LAMBDA_UNITS } from "@/app/_ui/lambdaUnits";
import { NumberField } from "@/app/_ui/NumberField";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { LAMBDA_COLUMNS } from "@/lib/schemas/logColumns";
import type { Pick } from "@/lib/schemas/picks";
import { readLambdaFile } from "../actions";
import { useLogAnswer } from "../useLogAnswer";
import type { LambdaAnswerData } from "./LambdaAnswer";

/** With its drawing: fetched when there is an answer to draw. */
const LambdaAnswer = lazy(() => import("./LambdaAnswer").then((file) => ({ default: file.LambdaAnswer })));

export interface LambdaFormProps {
  slug: string;
  initial: string;
  locale: string;
  bikes: readonly Pick[];
  bike: Pick | null;
  mayKeep: boolean;
  /** Units the shop writes in, by the field's name. */
  units: Readonly<Record<string, string>>;
}

/** Reads a lambda log, for a bike or without one; its calibration may be kept. */
export function LambdaForm(props: LambdaFormProps) {
  return (
    <Form action={readLambdaFile} shop={props.slug} label="Lambda log">
      <Fields {...props} />
    </Form>
  );
}

function Fields({ slug, initial, locale, bikes, bike, mayKeep, units }: LambdaFormProps) {
  const { answer, typed } = useLogAnswer<LambdaAnswerData>();
  const [live, setLive] = useState<string>();
  const text = useFormValue("csv", live ?? typed.csv ?? initial);
  const of = (name: string) => typed[name];
  return (
    <div className="grid gap-x-10 gap-y-6 lg:grid-cols-[minmax(0,300px)_minmax(0,1fr)] xl:grid-cols-[minmax(0,420px)_minmax(0,1fr)]">
      <div className="min-w-0 print:hidden">
        <input type="hidden" name="held" value={live === undefined ? "" : "1"} readOnly />
        <Section title="File">
          <LogText initial={live ?? typed.csv ?? initial} onText={setLive} />
        </Section>
        <Section title="Columns">
          <ColumnFields text={live ?? text} columns={LAMBDA_COLUMNS} typed={typed} />
        </Section>
        <Section title="Units">
          <div className="grid gap-x-4 sm:grid-cols-2 lg:grid-cols-1 xl:grid-cols-2">
            {LAMBDA_UNITS.map(([name, label, choices]) => (
              <SelectField
                key={name}
                name={name}
                label={label}
                options={choices}
                initial={of(name) ?? units[name]}
              />
            ))}
          </div>
          <NumberField
            name="perSecond"
            label="Samples per second"
            initial={of("perSecond")}
            hint="Only for a log without time."
          />
        </Section>
        <Section title="Bike">
          <PickField
            shop={slug}
            from="bikes"
            name="bike"
            label="Ridden with"
            newest={bikes}
            chosen={bike}
            blank="No bike: against the targets only"
            hint="With the settings of its newest sheet."
          />
          <NumberField
            name="altitude"
            label="Altitude of the ride"
            step={10}
            initial={of("altitude")}
            hint="Blank with the temperature: the air of the sheet."
          />
          <NumberField name="temperature" label="Temperature of the ride" initial={of("temperature")} />
        </Section>
        <SubmitButton name="act" value="read">
          Read the log
        </SubmitButton>
      </div>
      <div className="min-w-0">
        {answer ? (
          <Suspense fallback={null}>
            <LambdaAnswer data={answer} locale={locale} />
          </Suspense>
        ) : (
          <Empty
            title="No log read yet."
            text="Paste a log with time, throttle and lambda. Hold each opening for two seconds or more: what lies near a throttle movement is dropped, since gas and sensor lag. Never read instruments while riding."
          />
        )}
        {answer?.regions && mayKeep && !answer.kept && (
          <Section title="Keep it" className="print:hidden">
            <TextField name="note" label="Note to it" maxLength={400} />
            <SubmitButton name="act" value="keep">
              Keep for this model card
            </SubmitButton>
          </Section>
        )}
      </div>
    </div>
  );
}
