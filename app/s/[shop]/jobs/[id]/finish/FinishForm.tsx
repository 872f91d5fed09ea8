import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { OdometerField } from "@/app/_ui/OdometerField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { SheetOfJob } from "@/lib/data/jobs/sheets";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import { finish } from "../../actions";

interface FinishFormProps {
  jobId: number;
  version: number;
  slug: string;
  values: SheetOfJob["values"];
  /** What a reading on the card measured. */
  measured: SheetOfJob["values"];
  odometer: { unit: "km" | "mi"; value: number | undefined };
}

const HOWS = [
  { value: "", label: "as the rest" },
  { value: "read", label: "read off the part" },
  { value: "measured", label: "measured" },
  { value: "assumed", label: "assumed" },
];

/** Said to whoever hands the bike over; common practice, no source. */
const CAUTIONS = [
  "Throttle and slide return freely, engine off and running, bars turned both ways.",
  "No fuel leak at bowl, hoses and tap; vent hoses on and not kinked.",
  "Choke, diaphragm, O-rings and grommets are back where they belong.",
  "The settings are a starting point: the rider looks at the plug and says how it runs.",
];

/** The as-left sheet, filled in from the card: what was measured there says so, and one answer says how the rest is known. */
export function FinishForm({ jobId, version, slug, values, measured, odometer }: FinishFormProps) {
  const carburettors = [...new Set([1, ...values.map((value) => value.carburettor)])].sort();
  const known = (carburettor: number, key: string) =>
    values.find((value) => value.carburettor === carburettor && value.setting === key);
  const read = (carburettor: number, key: string) =>
    measured.some((value) => value.carburettor === carburettor && value.setting === key);
  const first = carburettors[0] ?? 1;
  return (
    <Form
      action={finish}
      shop={slug}
      hidden={{ jobId: String(jobId), version: String(version) }}
      label="Record as left"
      keep={`finish ${jobId}`}
      className="max-w-3xl"
    >
      {carburettors.map((carburettor) => (
        <Section
          key={carburettor}
          title={carburettors.length > 1 ? `Carburettor ${carburettor}` : "Settings as left"}
        >
          {SETTINGS.filter(
            (def) => known(carburettor, def.key) || (def.key === "idleSpeedRpm" && carburettor === first),
          ).map((def) => (
            <div key={def.key} className="mb-2 grid items-start gap-x-4 border-hair border-b sm:grid-cols-2">
              <NumberField
                name={`values.${carburettor}.${def.key}`}
                label={def.unit ? `${def.name}, ${def.unit}` : def.name}
                step={def.step}
                decimals={def.decimals}
                min={def.low}
                max={def.high}
                initial={known(carburettor, def.key)?.value.toFixed(def.decimals)}
                hint={def.key === "idleSpeedRpm" ? "Set it down again, engine hot." : undefined}
              />
              <SelectField
                name={`hows.${carburettor}.${def.key}`}
                label={`How ${def.name.toLowerCase()} is known`}
                options={HOWS}
                initial={read(carburettor, def.key) ? "measured" : ""}
                hint={read(carburettor, def.key) ? "By the reading on the card" : undefined}
              />
            </div>
          ))}
        </Section>
      ))}
      <Section title="The rest">
        <SelectField
          name="rest"
          label="All values left “as the rest” are"
          options={[
            { value: "", label: "choose…" },
            { value: "read", label: "read off the parts" },
            { value: "measured", label: "measured" },
            { value: "assumed", label: "assumed" },
          ]}
          initial=""
        />
      </Section>
      <Section title="Before it goes">
        <OdometerField label="Odometer out" unit={odometer.unit} initial={odometer.value} />
        <TextArea name="note" label="Note for the customer" rows={3} maxLength={1000} />
        <ul className="mb-2 list-disc pl-5">
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
        <CheckField name="cautions" label="I went through all of these on this bike" />
      </Section>
      <SubmitButton size="act" className="w-full sm:w-auto">
        The bike is ready
      </SubmitButton>
    </Form>
  );
}
