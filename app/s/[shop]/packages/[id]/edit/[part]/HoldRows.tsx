"use client";
import { RowList } from "@/app/_ui/RowList";
import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { HoldPoint } from "@/lib/domain/packages/recipe";
import { MEASURABLES } from "@/lib/domain/tuning/measurables";

const KINDS = [
  { value: "reading", label: "a reading" },
  { value: "signature", label: "a signature" },
];
const text = (n: number | undefined) => (n === undefined ? "" : String(n));

/** Hold points: a reading inside limits, or a signature. */
export function HoldRows({ rows }: { rows: readonly HoldPoint[] }) {
  return (
    <RowList
      title="Hold points"
      hint="The step may not be passed without it. A reading that measures a setting or a part that wears is kept as measured and held against the model card’s limits too; another reading needs one limit at least."
      add="Add a hold point"
      count={rows.length}
      row={(at) => {
        const point = rows[at];
        const cell = (name: string, label: string, initial: string, decimal = true) => (
          <TextField
            name={`holdPoints.${at}.${name}`}
            label={label}
            initial={initial}
            inputMode={decimal ? "decimal" : undefined}
            mono={decimal}
          />
        );
        return (
          <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-[10rem_minmax(0,1fr)_6rem_6rem_6rem_6rem]">
            <SelectField
              name={`holdPoints.${at}.kind`}
              label="Kind"
              initial={point?.kind ?? "reading"}
              options={KINDS}
            />
            {cell("name", "Of what", point?.name ?? "", false)}
            {cell("unit", "Unit", point?.unit ?? "", false)}
            {cell("low", "From", text(point?.low))}
            {cell("high", "To", text(point?.high))}
            {cell("step", "Read to", text(point?.step))}
            <SelectField
              name={`holdPoints.${at}.measures`}
              label="Measures"
              initial={point?.measures ?? ""}
              className="col-span-2 sm:col-span-3"
              options={[
                { value: "", label: "nothing that is kept" },
                ...MEASURABLES.map((one) => ({
                  value: one.key,
                  label: one.kind === "wear" ? `Wear: ${one.name}` : one.name,
                })),
              ]}
            />
            <SelectField
              name={`holdPoints.${at}.carburettor`}
              label="Of carburettor"
              initial={text(point?.carburettor)}
              className="col-span-2"
              options={[
                { value: "", label: "the only one, or asked on the card" },
                ...[1, 2, 3, 4].map((n) => ({ value: String(n), label: String(n) })),
              ]}
            />
            <TextField
              name={`holdPoints.${at}.station`}
              label="Needle: mm below its shoulder"
              initial={text(point?.station)}
              inputMode="decimal"
              mono
            />
          </div>
        );
      }}
    />
  );
}
