import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import {
  BAND_FROM,
  BAND_WORDS,
  type BandFrom,
  COMMON_BAND_KPA,
  VACUUM_UNITS,
  type VacuumUnit,
} from "@/lib/domain/procedures/vacuum";
import { readBalance } from "../bikes/[id]/balance/actions";

interface Props {
  readonly slug: string;
  readonly bikeId: number;
  readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  /** Where it is read, on a card. */
  readonly on?: { readonly jobId: number; readonly stepId: number } | undefined;
  /** What the newest balance of the model was held to. */
  readonly last: { readonly unit: VacuumUnit; readonly band: number; readonly bandFrom: BandFrom } | null;
}

/** What the gauges of all carburettors say at once. */
export function BalanceForm({ slug, bikeId, carburettors, on, last }: Props) {
  const place = on && { jobId: String(on.jobId), stepId: String(on.stepId) };
  return (
    <Form
      action={readBalance}
      shop={slug}
      hidden={{ bikeId: String(bikeId), ...place }}
      label="Vacuum balance"
      className="max-w-[640px]"
    >
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-4">
        {carburettors.map(({ position, label }) => (
          <TextField
            key={position}
            name={`values.${position}`}
            label={`Vacuum, ${label.toLowerCase()}`}
            inputMode="decimal"
            mono
          />
        ))}
        <SelectField
          name="unit"
          label="Gauges read in"
          initial={last?.unit ?? "kPa"}
          options={VACUUM_UNITS.map((value) => ({ value, label: value }))}
        />
        <TextField name="rpm" label="Engine at, rpm" inputMode="numeric" mono />
      </div>
      <div className="grid gap-x-3 sm:grid-cols-2">
        <SelectField
          name="bandFrom"
          label="Wanted band is"
          initial={last?.bandFrom ?? "practice"}
          options={BAND_FROM.map((value) => ({ value, label: BAND_WORDS[value] }))}
        />
        <TextField
          name="band"
          label="Greatest difference"
          inputMode="decimal"
          mono
          initial={last && last.bandFrom !== "practice" ? String(last.band) : ""}
          hint={`In the gauges' unit. Blank by common practice: ${COMMON_BAND_KPA} kPa.`}
        />
      </div>
      <SubmitButton size="act" className="w-full sm:w-auto">
        Keep these readings
      </SubmitButton>
    </Form>
  );
}
