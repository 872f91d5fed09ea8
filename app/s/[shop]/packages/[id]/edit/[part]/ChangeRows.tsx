"use client";
import { RowList } from "@/app/_ui/RowList";
import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { SettingChange } from "@/lib/domain/tuning/settingChange";
import { SETTINGS } from "@/lib/domain/tuning/settings";

const HOW = [
  { value: "computed", label: "is computed" },
  { value: "set", label: "is set to" },
  { value: "add", label: "goes up by" },
];

/** What the option does to the settings. */
export function ChangeRows({ rows }: { rows: readonly SettingChange[] }) {
  return (
    <RowList
      title="Setting changes"
      hint="A computed setting is worked out for the bike. “Goes up by” takes a minus for down."
      add="Add a change"
      count={rows.length}
      row={(at) => {
        const change = rows[at];
        const strange = change && !SETTINGS.some((s) => s.key === change.setting);
        return (
          <div className="grid gap-x-4 sm:grid-cols-[minmax(0,1fr)_12rem_8rem]">
            <SelectField
              name={`changes.${at}.setting`}
              label="Setting"
              initial={change?.setting ?? ""}
              options={[
                { value: "", label: "–" },
                ...SETTINGS.map((s) => ({ value: s.key, label: s.unit ? `${s.name}, ${s.unit}` : s.name })),
                ...(strange ? [{ value: change.setting, label: `“${change.setting}”, no setting` }] : []),
              ]}
            />
            <SelectField
              name={`changes.${at}.change`}
              label="How"
              initial={change?.change ?? "computed"}
              options={HOW}
            />
            <TextField
              name={`changes.${at}.value`}
              label="Value"
              initial={change?.value === undefined ? "" : String(change.value)}
              inputMode="decimal"
              mono
            />
          </div>
        );
      }}
    />
  );
}
