"use client";
import { RowList } from "@/app/_ui/RowList";
import { TextField } from "@/app/_ui/TextField";
import type { Torque } from "@/lib/domain/library/entry";

/** Fasteners with the shop's own torque; a place without a figure waits for one. */
export function TorqueRows({ rows }: { rows: readonly Torque[] }) {
  return (
    <RowList
      title="Torques"
      hint="Your own figures: each needs its source, such as a manual and page. One with a figure is checked on the card."
      add="Add a torque"
      count={rows.length}
      row={(at) => (
        <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-[minmax(0,1fr)_7rem_minmax(0,1fr)]">
          <TextField
            name={`torques.${at}.where`}
            label="Screw, bolt or nut"
            initial={rows[at]?.where}
            className="max-sm:col-span-2"
          />
          <TextField
            name={`torques.${at}.newtonMetres`}
            label="N·m"
            initial={rows[at]?.newtonMetres?.toString()}
            inputMode="decimal"
            mono
          />
          <TextField name={`torques.${at}.source`} label="Source" initial={rows[at]?.source} />
        </div>
      )}
    />
  );
}
