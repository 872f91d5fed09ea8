import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import { NEEDLE_STATIONS } from "@/lib/schemas/needles";

const ORIGINS = [
  { value: "delivered", label: "as delivered" },
  { value: "bought", label: "bought" },
  { value: "reshaped", label: "reshaped here" },
];

/** What is measured of a needle, on a bike or in a drawer. Blank is not known. */
export function NeedleRecordFields({ last }: { last: NeedleRecord | null }) {
  const stations = Array.from({ length: NEEDLE_STATIONS }, (_, i) => ({
    row: i + 1,
    was: last?.stations[i],
  }));
  const text = (value: number | null | undefined) => value ?? undefined;
  return (
    <>
      <div className="grid gap-x-8 sm:grid-cols-2">
        <SelectField
          name="origin"
          label="Where it is from"
          initial={last?.origin ?? "delivered"}
          options={ORIGINS}
        />
        <TextField name="marks" label="Marks on it" initial={last?.marks ?? ""} maxLength={60} mono />
        <NumberField
          name="micrometerMm"
          label="Micrometer's step"
          unit="mm"
          step={0.001}
          min={0.001}
          max={0.05}
          initial={text(last?.micrometerMm) ?? 0.01}
        />
        <NumberField
          name="planeMm"
          label="Needle jet below the shoulder, slide shut"
          unit="mm"
          step={0.5}
          min={0}
          max={80}
          initial={text(last?.planeMm)}
          hint="The shoulder is what the clip or the lowest shim bears on."
        />
        <NumberField
          name="grooves"
          label="Clip grooves"
          step={1}
          min={0}
          max={7}
          initial={text(last?.grooves)}
          hint="0 for none. Blank: not counted."
        />
        <NumberField
          name="grooveStepMm"
          label="Distance between grooves"
          unit="mm"
          step={0.05}
          min={0.3}
          max={3}
          initial={text(last?.grooveStepMm)}
        />
        <NumberField
          name="grooveAt"
          label="Groove that the stations count from"
          step={1}
          min={1}
          max={7}
          initial={text(last?.grooveAt)}
        />
      </div>
      <fieldset className="mb-4">
        <legend className="mb-1 font-semibold">Diameters, from the shoulder down</legend>
        <div className="grid gap-x-8 md:grid-cols-2">
          {stations.map(({ row, was }) => (
            <div key={row} className="grid grid-cols-2 gap-3">
              <NumberField
                name={`stations.${row}.at`}
                label={`Station ${row}, at`}
                unit="mm"
                step={1}
                decimals={1}
                min={0}
                max={120}
                initial={was?.atMm}
              />
              <NumberField
                name={`stations.${row}.diameter`}
                label={`Diameter ${row}`}
                unit="mm"
                step={0.01}
                decimals={3}
                min={0.5}
                max={6}
                hint={was ? `${was.diameterMm} before` : undefined}
              />
            </div>
          ))}
        </div>
      </fieldset>
      <TextArea name="note" label="Note" rows={2} initial={last?.note ?? ""} />
    </>
  );
}
