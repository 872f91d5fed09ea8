"use client";
import { lazy, Suspense, useState } from "react";
import { ColumnFields } from "@/app/_ui/ColumnFields";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { useFormValue } from "@/app/_ui/formContext";
import { LogText } from "@/app/_ui/LogText";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DynoReading } from "@/lib/domain/bench/dynoTypes";
import { DYNO_COLUMNS } from "@/lib/schemas/logColumns";
import { readDynoFile } from "../actions";
import { useLogAnswer } from "../useLogAnswer";
import { STANDARDS, UNIT_CHOICES } from "./unitChoices";

/** With its drawings: fetched when there is an answer to draw. */
const DynoAnswer = lazy(() => import("./DynoAnswer").then((file) => ({ default: file.DynoAnswer })));

export interface DynoFormProps {
  slug: string;
  initial: string;
  locale: string;
  /** Units the shop writes in, by the field's name. */
  units: Readonly<Record<string, string>>;
}

/** Reads a dyno file and shows before and after; what was sent stays in the form. */
export function DynoForm(props: DynoFormProps) {
  return (
    <Form action={readDynoFile} shop={props.slug} label="Dyno file">
      <Fields {...props} />
    </Form>
  );
}

function Fields({ initial, locale, units }: DynoFormProps) {
  const { answer, typed } = useLogAnswer<DynoReading>();
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
          <ColumnFields text={live ?? text} columns={DYNO_COLUMNS} typed={typed} />
        </Section>
        <Section title="Units of the file">
          <div className="grid gap-x-4 sm:grid-cols-2 lg:grid-cols-1 xl:grid-cols-2">
            {UNIT_CHOICES.map(([name, label, choices]) => (
              <SelectField
                key={name}
                name={name}
                label={label}
                options={choices}
                initial={of(name) ?? units[name]}
              />
            ))}
          </div>
        </Section>
        <Section title="Compare">
          <TextField
            name="after"
            label="Runs made after the work"
            hint="Their names, with commas. Blank: runs whose name begins with after."
            initial={of("after")}
            maxLength={200}
          />
          <NumberField
            name="lowRpm"
            label="Band from"
            unit="rpm"
            step={100}
            initial={of("lowRpm")}
            hint="Blank: all that the runs share."
          />
          <NumberField name="highRpm" label="Band to" unit="rpm" step={100} initial={of("highRpm")} />
          <SelectField name="standard" label="Correct to" options={STANDARDS} initial={of("standard")} />
          <NumberField
            name="temperature"
            label="Air temperature"
            initial={of("temperature")}
            hint="For the correction, where the file has no column; in the unit chosen above."
          />
          <NumberField
            name="pressure"
            label="Station pressure"
            initial={of("pressure")}
            hint="In the unit chosen above."
          />
          <NumberField
            name="humidity"
            label="Humidity"
            unit="%"
            step={5}
            initial={of("humidity")}
            hint="Blank: 50 %, assumed."
          />
        </Section>
        <SubmitButton>Compare the runs</SubmitButton>
      </div>
      <div className="min-w-0">
        {answer ? (
          <Suspense fallback={null}>
            <DynoAnswer reading={answer} locale={locale} unit={units.torqueUnit ?? "Nm"} />
          </Suspense>
        ) : (
          <Empty
            title="No runs compared yet."
            text="Paste the file a dyno writes: engine speed, power or torque, and the run's name; lambda and the air if it has them. Two runs or more on each side tell chance from gain."
          />
        )}
      </div>
    </div>
  );
}
