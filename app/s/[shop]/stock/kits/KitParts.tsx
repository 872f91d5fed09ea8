"use client";
import { CodeField } from "@/app/_ui/CodeField";
import { RowList } from "@/app/_ui/RowList";
import { TextField } from "@/app/_ui/TextField";
import type { KitRow } from "@/lib/schemas/kits";

/** The parts of a kit by their code, with how much of each. */
export function KitParts({ shop, rows }: { shop: string; rows: readonly KitRow[] }) {
  return (
    <RowList
      title="Parts of one kit"
      hint="Quantities in the part's own unit."
      add="Add a part"
      count={rows.length}
      row={(at) => (
        <div className="grid grid-cols-[minmax(0,1fr)_7rem] gap-x-4">
          <CodeField
            shop={shop}
            from="parts"
            name={`parts.${at}.code`}
            label="Part"
            initial={rows[at]?.code}
          />
          <TextField
            name={`parts.${at}.quantity`}
            label="Quantity"
            initial={String((rows[at]?.quantityMilli ?? 1000) / 1000)}
            inputMode="decimal"
            mono
          />
        </div>
      )}
    />
  );
}
