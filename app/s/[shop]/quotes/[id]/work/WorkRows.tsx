"use client";
import { RowList } from "@/app/_ui/RowList";
import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import type { WrittenWork } from "@/lib/domain/packages/work";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";

interface Choice {
  readonly value: string;
  readonly label: string;
}

const amount = (text: string | undefined) => text ?? "";

/** The time a written work takes, by grade. */
export function StepRows({ rows, grades }: { rows: WrittenWork["steps"]; grades: readonly Choice[] }) {
  return (
    <RowList
      title="Time"
      hint="One row is usual. Several rows are several steps on the job's card, one after another."
      add="Add a row of time"
      count={rows.length}
      row={(at) => (
        <div className="grid gap-x-4 sm:grid-cols-[8rem_12rem_minmax(0,1fr)]">
          <TextField
            name={`steps.${at}.minutes`}
            label="Minutes"
            initial={rows[at] ? String(rows[at].minutes) : ""}
            inputMode="numeric"
            mono
          />
          <SelectField
            name={`steps.${at}.grade`}
            label="Grade"
            initial={rows[at]?.grade ?? grades[0]?.value}
            options={grades}
          />
          <TextField
            name={`steps.${at}.name`}
            label="Step, if not the work's name"
            initial={rows[at]?.name ?? ""}
            maxLength={120}
          />
        </div>
      )}
    />
  );
}

/** What has to be open: by the names that packages use, so that it is opened once. */
export function AccessRows({ rows }: { rows: WrittenWork["accesses"] }) {
  return (
    <RowList
      title="What has to be open"
      hint="By name. What another work of this quote opens by the same name is opened once."
      add="Add an access"
      count={rows.length}
      row={(at) => (
        <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-[minmax(0,1fr)_8rem_8rem]">
          <TextField
            name={`accesses.${at}.name`}
            label="Access"
            initial={rows[at]?.name ?? ""}
            list="accesses"
            maxLength={120}
            className="max-sm:col-span-2"
          />
          <TextField
            name={`accesses.${at}.open`}
            label="Minutes to open"
            initial={rows[at] ? String(rows[at].openMinutes) : ""}
            inputMode="numeric"
            mono
          />
          <TextField
            name={`accesses.${at}.close`}
            label="Minutes to close"
            initial={rows[at] ? String(rows[at].closeMinutes) : ""}
            inputMode="numeric"
            mono
          />
        </div>
      )}
    />
  );
}

/** Work that somebody else does. */
export function OutsideRows({
  rows,
  currency,
}: {
  rows: readonly {
    readonly name: string;
    readonly price: string;
    readonly cost: string;
    readonly taxMark: string;
  }[];
  currency: string;
}) {
  return (
    <RowList
      title="Work from outside"
      hint="What somebody else does for you, at the price the customer pays."
      add="Add work from outside"
      count={rows.length}
      row={(at) => (
        <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-[minmax(0,1fr)_9rem_9rem_12rem]">
          <TextField
            name={`outside.${at}.name`}
            label="What"
            initial={rows[at]?.name ?? ""}
            maxLength={160}
            className="max-sm:col-span-2"
          />
          <TextField
            name={`outside.${at}.price`}
            label={`Price, ${currency}`}
            initial={amount(rows[at]?.price)}
            inputMode="decimal"
            mono
          />
          <TextField
            name={`outside.${at}.cost`}
            label={`What it costs you, ${currency}`}
            initial={amount(rows[at]?.cost)}
            inputMode="decimal"
            mono
          />
          <SelectField
            name={`outside.${at}.taxMark`}
            label="Tax"
            initial={rows[at]?.taxMark ?? ""}
            options={Object.entries(TAX_MARK_WORDS).map(([value, label]) => ({ value, label }))}
            className="max-sm:col-span-2"
          />
        </div>
      )}
    />
  );
}
