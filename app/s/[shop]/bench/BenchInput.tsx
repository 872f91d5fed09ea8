"use client";
import type { ReactNode } from "react";
import { cx } from "@/app/_ui/cx";
import { CONTROL, describedBy, FieldFrame } from "@/app/_ui/FieldFrame";

type Choices = readonly (readonly [value: string, label: string])[];

export interface BenchInputProps {
  name: string;
  label: ReactNode;
  hint: string | undefined;
  problem: string | undefined;
  typed: string;
  /** One of these in place of something typed. */
  choices?: Choices | undefined;
  /** Words in place of a number. */
  text?: boolean | undefined;
  /** The unit of a number; or the units to choose from, and the one that is chosen. */
  unit?: string | undefined;
  units?: { readonly label: string; readonly chosen: string; readonly choices: Choices } | undefined;
}

const Options = ({ of }: { of: Choices }) =>
  of.map(([value, label]) => (
    <option key={value} value={value}>
      {label}
    </option>
  ));

/** How an input of the bench looks; what it asks for is its specification's. */
export function BenchInput({
  name,
  label,
  hint,
  problem,
  typed,
  choices,
  text,
  unit,
  units,
}: BenchInputProps) {
  const id = `bench-${name}`;
  const described = describedBy(id, hint, problem);
  if (choices)
    return (
      <FieldFrame id={id} label={label} hint={hint} error={problem}>
        <select
          id={id}
          name={name}
          defaultValue={typed || undefined}
          aria-describedby={described}
          className={CONTROL}
        >
          <Options of={choices} />
        </select>
      </FieldFrame>
    );
  return (
    <FieldFrame
      id={id}
      label={label}
      hint={hint}
      error={problem}
      className={text ? "sm:col-span-2 lg:col-span-1 xl:col-span-2" : undefined}
    >
      <div className="flex">
        <input
          id={id}
          name={name}
          type="text"
          inputMode={text ? undefined : "decimal"}
          autoComplete="off"
          defaultValue={typed}
          aria-invalid={problem ? true : undefined}
          aria-describedby={described}
          className={cx(CONTROL, "font-mono", (unit || units) && "rounded-r-none border-r-0")}
        />
        {unit && (
          <span
            data-unit
            className="flex flex-none items-center whitespace-nowrap rounded-r-[3px] border border-edge bg-paper px-2.5 font-mono text-[14px] text-soft"
          >
            {unit}
          </span>
        )}
        {units && (
          <select
            name={`${name}Unit`}
            defaultValue={units.chosen}
            aria-label={units.label}
            className="min-h-11 flex-none rounded-r-[3px] border border-edge bg-paper px-2 font-mono text-[14px] text-ink pointer-coarse:min-h-12"
          >
            <Options of={units.choices} />
          </select>
        )}
      </div>
    </FieldFrame>
  );
}
