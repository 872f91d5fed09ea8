import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";

export interface DetailValues {
  readonly year: number | null;
  readonly plate: string;
  readonly frameNumber: string;
  readonly colour: string;
  readonly odometerKm: number | null;
  readonly complaint: string;
  readonly notes: string;
  readonly severityId: number | null;
}

/** A use to choose, with what intervals are divided by. */
export interface UseChoice {
  readonly id: number;
  readonly name: string;
  readonly factor: number;
}

interface Props {
  units: string;
  uses: readonly UseChoice[];
  bike?: DetailValues | undefined;
}

/** What is told apart between two bikes of one model, and what its owner complains of. */
export function BikeDetails({ units, uses, bike }: Props) {
  return (
    <>
      <Section title="This one">
        <div className="grid gap-x-5 sm:grid-cols-2">
          <TextField name="plate" label="Plate" initial={bike?.plate} mono maxLength={20} />
          <NumberField name="year" label="Year" initial={bike?.year ?? undefined} min={1900} max={2100} />
          <TextField
            name="frameNumber"
            label="Frame number"
            initial={bike?.frameNumber}
            mono
            maxLength={40}
          />
          <TextField name="colour" label="Colour" initial={bike?.colour} maxLength={40} />
          <NumberField
            name="odometerKm"
            label="Odometer"
            unit={distanceUnit(units)}
            step={100}
            min={0}
            initial={bike?.odometerKm == null ? undefined : shownDistance(bike.odometerKm, units)}
          />
          <SelectField
            name="severityId"
            label="Used in"
            initial={bike?.severityId == null ? "" : String(bike.severityId)}
            hint="Service, cleaning, wear checks and follow-ups by distance come sooner by its factor."
            options={[
              { value: "", label: "the dry road" },
              ...uses.map(({ id, name, factor }) => ({ value: String(id), label: `${name}, ÷ ${factor}` })),
            ]}
          />
        </div>
      </Section>
      <Section title="What is said about it">
        <TextArea name="complaint" label="What the owner complains of" rows={3} initial={bike?.complaint} />
        <TextArea name="notes" label="Notes, for the shop only" rows={3} initial={bike?.notes} />
      </Section>
    </>
  );
}
