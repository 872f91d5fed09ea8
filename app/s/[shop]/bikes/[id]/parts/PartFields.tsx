import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { DescribedKind } from "@/lib/domain/tuning/describedParts";

const figure = (name: string, label: string, hint?: string) => (
  <TextField name={name} label={label} hint={hint} inputMode="decimal" mono />
);

/** The fields of a kind of part. Blank is not known. */
export function PartFields({ kind }: { kind: DescribedKind }) {
  if (kind === "jet")
    return (
      <>
        <SelectField
          name="setting"
          label="It is the"
          initial="mainJet"
          options={[
            { value: "mainJet", label: "main jet" },
            { value: "pilotJet", label: "pilot jet" },
          ]}
        />
        <SelectField
          name="by"
          label="Measured by"
          initial="pin gauge"
          options={[
            { value: "pin gauge", label: "pin gauge, mm" },
            { value: "flow", label: "flow, in the jets' numbering" },
          ]}
        />
        {figure("measured", "Measured")}
        {figure("number", "Made from number")}
      </>
    );
  if (kind === "spring")
    return (
      <>
        <SelectField
          name="change"
          label="It is"
          initial="delivered"
          options={["delivered", "cut", "exchanged"].map((value) => ({ value, label: value }))}
        />
        {figure("freeMm", "Free length, mm")}
        {figure("wireMm", "Wire, mm")}
        {figure("coils", "Active coils")}
        {figure("rateNPerM", "Rate, N/m")}
      </>
    );
  if (kind === "liftHoles") return figure("holes", "Holes, mm", "Each: 2.3; 2.8. Blank: none.");
  if (kind === "openings")
    return figure(
      "openings",
      "Openings, mm",
      "Diameter and distance from the breather: 48 60; 30. Blank: none.",
    );
  return (
    <>
      <TextField name="name" label="Which one" maxLength={80} />
      {figure("flowLMin", "Flow, l/min", "Blank: not known.")}
      {figure(
        "atPa",
        "at a pressure loss of, Pa",
        "28 inches of water are 6974 Pa. Settings are computed with a flow only where its loss is known, before and after a change.",
      )}
    </>
  );
}
