import { Form } from "@/app/_ui/Form";
import { OdometerField } from "@/app/_ui/OdometerField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { VALVE_CLEARANCE } from "@/lib/domain/procedures/valveClearance";
import { HowToMeasure } from "../../../_procedures/HowToMeasure";
import {
  CONDITION_WORDS,
  choices,
  ENGINE_WORDS,
  SIGN_WORDS,
  THROTTLE_WORDS,
} from "../../../jobs/[id]/rideWords";
import { takeIn } from "./actions";
import { PLUG_WORDS } from "./words";

interface IntakeFormProps {
  shop: string;
  bikeId: number;
  jobId: number | undefined;
  complaint: string;
  cylinders: number;
  odometer: { unit: string; value: number | undefined };
}

const ROWS = [0, 1, 2, 3, 4, 5];
const BLANK = { value: "", label: "—" };

/** What the owner says, what a ride showed and what a look showed; every part may be left empty. */
export function IntakeForm({ shop, bikeId, jobId, complaint, cylinders, odometer }: IntakeFormProps) {
  return (
    <Form
      action={takeIn}
      shop={shop}
      hidden={{ bikeId: String(bikeId), ...(jobId === undefined ? {} : { jobId: String(jobId) }) }}
      label="Intake"
      className="max-w-3xl"
    >
      <Section title="What the owner says">
        <TextArea
          name="complaint"
          label="Complaint, in the owner’s words"
          rows={3}
          initial={complaint}
          maxLength={2000}
        />
        <TextArea
          name="changedBefore"
          label="What was changed before"
          hint="Silencer, filter, jets, needle, drilled holes: by whom, as far as anyone knows"
          rows={2}
          maxLength={2000}
        />
        <div className="grid gap-x-4 sm:grid-cols-2">
          <OdometerField label="Odometer" unit={odometer.unit} initial={odometer.value} />
          <TextField name="fuelUse" label="Fuel use, l/100 km" inputMode="decimal" mono />
        </div>
      </Section>
      <Section title="What it does, by throttle position">
        {ROWS.slice(0, 3).map((at) => (
          <Felt key={at} at={at} />
        ))}
        <details className="mb-3">
          <summary className="in-line text-brass">More observations</summary>
          {ROWS.slice(3).map((at) => (
            <Felt key={at} at={at} />
          ))}
        </details>
      </Section>
      <Section title="What a look shows">
        <p className="pt-3">
          <HowToMeasure slug={shop} procedures={[VALVE_CLEARANCE]} of="valve clearance" />
        </p>
        {Array.from({ length: cylinders }, (_, at) => at + 1).map((position) => (
          <Cylinder key={position} position={position} several={cylinders > 1} />
        ))}
        <TextArea name="note" label="Anything else" rows={2} maxLength={2000} />
      </Section>
      <SubmitButton size="act" className="w-full sm:w-auto">
        Record the intake
      </SubmitButton>
    </Form>
  );
}

function Felt({ at }: { at: number }) {
  const name = (part: string) => `observations.${at}.${part}`;
  return (
    <fieldset className="mt-2 border-hair border-b pb-1">
      <legend className="text-[14px] text-soft">Observation {at + 1}</legend>
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-4">
        <SelectField
          name={name("throttle")}
          label="Throttle"
          options={choices(THROTTLE_WORDS)}
          initial="quarter"
        />
        <SelectField
          name={name("condition")}
          label="Doing what"
          options={choices(CONDITION_WORDS)}
          initial="steady"
        />
        <SelectField name={name("engine")} label="Engine" options={choices(ENGINE_WORDS)} initial="hot" />
        <SelectField
          name={name("sign")}
          label="What it does"
          options={[BLANK, ...choices(SIGN_WORDS)]}
          initial=""
        />
      </div>
      <TextField name={name("note")} label="In the owner’s words" maxLength={300} />
    </fieldset>
  );
}

function Cylinder({ position, several }: { position: number; several: boolean }) {
  const name = (part: string) => `cylinders.${position}.${part}`;
  const field = (part: string, label: string) => (
    <TextField name={name(part)} label={label} inputMode="decimal" mono />
  );
  return (
    <fieldset className="mt-2 border-hair border-b pb-1">
      <legend className="text-[14px] text-soft">{several ? `Cylinder ${position}` : "The cylinder"}</legend>
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-3">
        <SelectField
          name={name("plug")}
          label="Plug looks"
          options={[BLANK, ...choices(PLUG_WORDS)]}
          initial=""
        />
        <TextField name={name("compressionKpa")} label="Compression, with unit" mono />
        {field("leakDownPercent", "Leak-down, %")}
        {field("intakeClearanceMm", "Intake valve, mm")}
        {field("exhaustClearanceMm", "Exhaust valve, mm")}
      </div>
    </fieldset>
  );
}
