"use client";
import { CodeField } from "@/app/_ui/CodeField";
import { RowList } from "@/app/_ui/RowList";
import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { PartNeed } from "@/lib/domain/packages/recipe";

interface Props {
  rows: readonly PartNeed[];
  /** For an option's parts: the operations that may take them. */
  takers?: readonly { readonly key: string; readonly name: string }[];
  shop: string;
  /** Drawers of jets are offered too: a recipe may leave the size to the computation. */
  drawers?: boolean;
}

const KINDS = [
  { value: "part", label: "a part" },
  { value: "mainJet", label: "main jet, size computed" },
  { value: "pilotJet", label: "pilot jet, size computed" },
];

/** Parts by their code, or a jet by its family with the size left to the computation. */
export function PartRows({ rows, takers, shop, drawers = false }: Props) {
  return (
    <RowList
      title="Parts"
      hint="A part by its code, or a jet by the family of its drawer. Quantities in the part's own unit."
      add="Add a part"
      count={rows.length}
      row={(at) => {
        const need = rows[at];
        const kit = need?.kind === "part" ? need.kit : undefined;
        return (
          <div className="grid gap-x-4 sm:grid-cols-[14rem_minmax(0,1fr)_8rem]">
            <SelectField
              name={`parts.${at}.kind`}
              label="What"
              initial={need?.kind === "jet" ? need.setting : "part"}
              options={KINDS}
            />
            <CodeField
              shop={shop}
              from={drawers ? "parts?families=yes" : "parts"}
              name={`parts.${at}.what`}
              label="Code or family"
              hint={kit ? `Out of ${kit}, at the kit’s price` : undefined}
              initial={need?.kind === "jet" ? need.family : need?.code}
            />
            {kit && <input type="hidden" name={`parts.${at}.kit`} value={kit} />}
            <TextField
              name={`parts.${at}.quantity`}
              label="Quantity"
              initial={need ? String(need.quantityMilli / 1000) : "1"}
              inputMode="decimal"
              mono
            />
            {takers && (
              <SelectField
                name={`parts.${at}.operation`}
                label="Taken by"
                initial={need?.operation ?? ""}
                className="sm:col-span-3"
                options={[
                  { value: "", label: "the option’s one operation, or the one that makes the setting" },
                  ...takers.map(({ key, name }) => ({ value: key, label: name })),
                  ...(need?.operation && !takers.some((o) => o.key === need.operation)
                    ? [{ value: need.operation, label: `“${need.operation}”, which is gone` }]
                    : []),
                ]}
              />
            )}
          </div>
        );
      }}
    />
  );
}
