import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { OdometerField } from "@/app/_ui/OdometerField";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { ToRecord } from "@/lib/data/arrivals/toRecord";
import { BIKE_PART_KEYS, DAMAGES } from "@/lib/domain/arrival/damage";
import type { Pick } from "@/lib/schemas/picks";
import { arrivalWords } from "@/lib/words/arrival";
import { record } from "./actions";
import { DamageMarks } from "./DamageMarks";

interface ArrivalFormProps {
  shop: string;
  of: ToRecord;
  /** To choose from, where nobody knows yet which bike was booked in. */
  bikes: readonly Pick[];
  odometer: { unit: string; value: number | undefined };
}

const words = arrivalWords("en");
const BLANK = { value: "", label: "—" };
const PARTS = [BLANK, ...BIKE_PART_KEYS.map((part) => ({ value: part, label: words.part[part] }))];
const WHATS = [BLANK, ...DAMAGES.map((what) => ({ value: what, label: words.what[what] }))];
const FUELS = [
  { value: "", label: "not looked at" },
  ...words.fuels.map((label, eighths) => ({ value: String(eighths), label })),
];

/** How a bike stands as it comes: what is read off it, what was left on it, where it is not whole, what its owner says. */
export function ArrivalForm({ shop, of, bikes, odometer }: ArrivalFormProps) {
  const { before } = of;
  const hidden = Object.fromEntries(Object.entries(of.hidden).map(([name, id]) => [name, String(id)]));
  return (
    <Form
      action={record}
      shop={shop}
      hidden={hidden}
      label="How the bike came"
      className="max-w-4xl"
      keep={`arrival-${Object.entries(hidden).flat().join("-")}`}
    >
      {of.bike === null && (
        <Section title="Which bike">
          <PickField
            shop={shop}
            from="bikes"
            name="bikeId"
            label="Bike"
            newest={bikes}
            blank="Choose it"
            hint="A bike that is not here yet is added from its owner’s page first."
          />
        </Section>
      )}
      <Section title="As it stands">
        <div className="grid grid-cols-[repeat(auto-fit,minmax(min(13rem,100%),1fr))] gap-x-5">
          <OdometerField label="Odometer" unit={odometer.unit} initial={odometer.value} />
          <SelectField
            name="fuelEighths"
            label="Fuel"
            options={FUELS}
            initial={before?.fuelEighths == null ? "" : String(before.fuelEighths)}
          />
          <NumberField name="keys" label="Keys" initial={before?.keys ?? 1} step={1} min={0} max={20} />
        </div>
        <TextArea
          name="accessories"
          label="Left on the bike"
          hint="Luggage, locks, a phone holder, papers: what goes home with it"
          rows={2}
          initial={before?.accessories}
          maxLength={500}
        />
      </Section>
      <Section title="Damage">
        <DamageMarks
          parts={PARTS}
          whats={WHATS}
          initial={(before?.damages ?? []).map((one) => ({
            side: one.side,
            part: one.part,
            what: one.what,
            note: one.note,
            x: one.x === null ? "" : String(one.x),
            y: one.y === null ? "" : String(one.y),
            firstId: String(one.id),
          }))}
        />
      </Section>
      <Section title="What the owner says">
        <TextArea name="words" label="In their own words" rows={3} initial={of.words} maxLength={2000} />
      </Section>
      <p className="mb-3 text-soft">Photos of marks and the signature come next.</p>
      <SubmitButton size="act" className="w-full sm:w-auto">
        {before ? "Record it anew" : "The bike is here"}
      </SubmitButton>
    </Form>
  );
}
