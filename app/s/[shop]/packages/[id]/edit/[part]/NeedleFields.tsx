import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { NeedleWork } from "@/lib/domain/tuning/needleWork";

const WORKS = [
  { value: "", label: "nothing" },
  { value: "reduce", label: "is taken down between two places and polished" },
  { value: "stations", label: "is brought to diameters at stations" },
  { value: "exchange", label: "is exchanged for one of stock" },
];

/** What the option does to the needle itself. Places are below the needle's shoulder. */
export function NeedleFields({ work }: { work: NeedleWork | undefined }) {
  const reduce = work?.kind === "reduce" ? work : undefined;
  const stations = work?.kind === "stations" ? work.stations : [];
  const gauge = work && work.kind !== "exchange" ? work.gaugeMm : undefined;
  const text = (value: number | undefined) => (value === undefined ? "" : String(value));
  return (
    <fieldset className="mb-5 max-w-[46rem]">
      <legend className="mb-1 font-semibold">Needle</legend>
      <p className="mb-2 text-[14px] text-soft">
        Places are in millimetres below the shoulder. Fill in what belongs to the choice.
      </p>
      <SelectField name="needleWork" label="The needle" initial={work?.kind ?? ""} options={WORKS} />
      <div className="grid gap-x-4 sm:grid-cols-3">
        <TextField
          name="needleFrom"
          label="Taken down from, mm"
          initial={text(reduce?.fromMm)}
          inputMode="decimal"
          mono
        />
        <TextField name="needleTo" label="to, mm" initial={text(reduce?.toMm)} inputMode="decimal" mono />
        <TextField
          name="needleBy"
          label="by, mm of diameter"
          initial={text(reduce?.byMm)}
          inputMode="decimal"
          mono
        />
      </div>
      <TextField
        name="needleStations"
        label="Stations"
        hint="Place and diameter: 10 2.50; 26 2.50; 36 2.18"
        initial={stations.map((s) => `${s.atMm} ${s.diameterMm}`).join("; ")}
        mono
      />
      <div className="grid gap-x-4 sm:grid-cols-2">
        <TextField
          name="needleGauge"
          label="Stop gauge, mm"
          hint="Bore of the ring gauge, where one is used"
          initial={text(gauge)}
          inputMode="decimal"
          mono
        />
        <TextField
          name="needleCode"
          label="Code of the other needle"
          hint="It stands among the option's parts too"
          initial={work?.kind === "exchange" ? work.code : ""}
          mono
        />
      </div>
    </fieldset>
  );
}
