import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { PartChange } from "@/lib/domain/tuning/partChange";

const SPRINGS = [
  { value: "", label: "stays as it is" },
  { value: "cut", label: "is cut" },
  { value: "exchanged", label: "is exchanged" },
];

/** The spring, holes, openings, filter and silencer that the option leaves; blank leaves them as they are. */
export function LeftPartFields({ leaves = [] }: { leaves: readonly PartChange[] | undefined }) {
  const text = (value: number | null | undefined) => (value == null ? "" : String(value));
  const figure = (name: string, label: string, value: number | null | undefined) => (
    <TextField name={name} label={label} initial={text(value)} inputMode="decimal" mono />
  );
  const spring = leaves.find((part) => part.kind === "spring");
  const holes = leaves.find((part) => part.kind === "liftHoles");
  const openings = leaves.find((part) => part.kind === "openings");
  const [filter, silencer] = (["filter", "silencer"] as const).map((kind) => {
    const part = leaves.find((one) => one.kind === kind);
    return part && "flowLMin" in part ? part : undefined;
  });
  return (
    <fieldset className="mb-5 max-w-[46rem]">
      <legend className="mb-1 font-semibold">Parts that it leaves otherwise</legend>
      <p className="mb-2 text-[14px] text-soft">
        As they are once the work is done. What is blank stays as it is, or is not known of the new part.
      </p>
      <SelectField
        name="leavesSpring"
        label="The slide spring"
        initial={spring?.change === "delivered" ? "exchanged" : (spring?.change ?? "")}
        options={SPRINGS}
      />
      <div className="grid gap-x-4 sm:grid-cols-2">
        {figure("leavesFreeMm", "Free length, mm", spring?.freeMm)}
        {figure("leavesWireMm", "Wire, mm", spring?.wireMm)}
        {figure("leavesCoils", "Active coils", spring?.coils)}
        {figure("leavesRate", "Rate, N/m", spring?.rateNPerM)}
      </div>
      <TextField
        name="leavesHoles"
        label="Lift holes, mm"
        hint="Each that the slide has then: 2.8; 2.8"
        initial={holes?.holesMm.join("; ")}
        mono
      />
      <TextField
        name="leavesOpenings"
        label="Airbox openings, mm"
        hint="Each that the airbox has then, with its distance from the breather: 48 60; 30"
        initial={openings?.openings
          .map((o) => [o.diameterMm, o.breatherMm ?? ""].join(" ").trim())
          .join("; ")}
        mono
      />
      <div className="grid gap-x-4 sm:grid-cols-3">
        <TextField name="leavesFilter" label="Air filter, which one" initial={filter?.name} maxLength={80} />
        {figure("leavesFilterFlow", "Filter: flow, l/min", filter?.flowLMin)}
        {figure("leavesFilterAt", "Filter: at a loss of, Pa", filter?.atPa)}
        <TextField
          name="leavesSilencer"
          label="Silencer, which one"
          initial={silencer?.name}
          maxLength={80}
        />
        {figure("leavesSilencerFlow", "Silencer: flow, l/min", silencer?.flowLMin)}
        {figure("leavesSilencerAt", "Silencer: at a loss of, Pa", silencer?.atPa)}
      </div>
    </fieldset>
  );
}
