import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { type EffectKind, effectDef } from "@/lib/domain/procedures/effects";
import { choices, THROTTLE_WORDS } from "../jobs/[id]/rideWords";
import { readEffect } from "./actions";

interface Props {
  readonly slug: string;
  readonly bikeId: number;
  readonly kind: EffectKind;
  readonly jobs: readonly { readonly id: number; readonly number: string; readonly title: string }[];
  readonly jobId: number | undefined;
}

const figure = (name: string, label: string) => (
  <TextField name={name} label={label} inputMode="decimal" mono />
);

/** One figure of a kind, with what makes it comparable. */
export function EffectForm({ slug, bikeId, kind, jobs, jobId }: Props) {
  const def = effectDef(kind);
  return (
    <Form
      key={kind}
      action={readEffect}
      shop={slug}
      hidden={{ bikeId: String(bikeId), kind }}
      label={def.name}
      className="max-w-[640px]"
    >
      <p className="mb-3 text-[15px] text-soft">{def.how}</p>
      <div className="grid gap-x-4 sm:grid-cols-2">
        <SelectField
          name="jobId"
          label="Of job"
          initial={String(jobId ?? jobs[0]?.id ?? "")}
          options={jobs.map((job) => ({ value: String(job.id), label: `${job.number}, ${job.title}` }))}
        />
        <ChoiceField
          name="side"
          label="It was read"
          initial="before"
          options={[
            { value: "before", label: "before the work" },
            { value: "after", label: "after it" },
          ]}
        />
      </div>
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-3">
        {kind === "fuel" ? (
          <>
            {figure("litres", "Litres filled")}
            {figure("km", "Kilometres")}
          </>
        ) : (
          figure("value", def.unit ? `Value, ${def.unit}` : "Value")
        )}
        {kind === "noise" && figure("distanceM", "Meter away, m")}
        {(kind === "noise" || kind === "power") && figure("rpm", "Engine at, rpm")}
        {kind === "lambda" && (
          <SelectField
            name="throttle"
            label="At throttle"
            initial="quarter"
            options={choices(THROTTLE_WORDS)}
          />
        )}
        {kind === "power" && (
          <TextField name="standard" label="Corrected to" initial="EU 134/2014" maxLength={40} />
        )}
        {(kind === "noise" || kind === "power" || kind === "lambda") && (
          <TextField name="instrument" label="Instrument" maxLength={80} />
        )}
      </div>
      <TextField name="note" label="Note" maxLength={300} />
      <SubmitButton size="act" className="w-full sm:w-auto">
        Keep it
      </SubmitButton>
    </Form>
  );
}
