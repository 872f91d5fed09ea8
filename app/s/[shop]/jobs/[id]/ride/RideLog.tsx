"use client";
import { useState } from "react";
import { ColumnFields } from "@/app/_ui/ColumnFields";
import { Form } from "@/app/_ui/Form";
import { useFormValue } from "@/app/_ui/formContext";
import { LogText } from "@/app/_ui/LogText";
import { LAMBDA_UNITS } from "@/app/_ui/lambdaUnits";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { LAMBDA_COLUMNS } from "@/lib/schemas/logColumns";
import { readRideLog } from "./actions";

export interface RideLogProps {
  slug: string;
  jobId: number;
  version: number;
  /** Units the shop writes in, by the field's name. */
  units: Readonly<Record<string, string>>;
}

/** A lambda log of this ride: read with what is fitted now, its corrections in the same list, its lesson kept for the model card. */
export function RideLog({ slug, jobId, version, units }: RideLogProps) {
  return (
    <Form
      action={readRideLog}
      shop={slug}
      hidden={{ jobId: String(jobId), version: String(version) }}
      label="Lambda log of the ride"
      className="max-w-3xl"
    >
      <Fields units={units} />
    </Form>
  );
}

function Fields({ units }: Pick<RideLogProps, "units">) {
  const [live, setLive] = useState<string>();
  const kept = useFormValue("csv", live ?? "");
  return (
    <>
      <LogText initial={live ?? ""} onText={setLive} />
      <ColumnFields text={live ?? kept} columns={LAMBDA_COLUMNS} typed={{}} />
      <div className="grid gap-x-4 sm:grid-cols-2">
        {LAMBDA_UNITS.map(([name, label, choices]) => (
          <SelectField key={name} name={name} label={label} options={choices} initial={units[name]} />
        ))}
        <NumberField name="perSecond" label="Samples per second" hint="Only for a log without time." />
        <NumberField
          name="altitude"
          label="Altitude of the ride"
          step={10}
          hint="Blank with the temperature: the shop's, in the season of today."
        />
        <NumberField name="temperature" label="Temperature of the ride" />
      </div>
      <TextField name="note" label="Note to the log" maxLength={400} />
      <SubmitButton tone="second">Read the log and see what to change</SubmitButton>
    </>
  );
}
