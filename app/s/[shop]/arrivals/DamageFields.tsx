"use client";
import { useContext, useId } from "react";
import { Button } from "@/app/_ui/Button";
import { CONTROL, describedBy, FieldFrame } from "@/app/_ui/FieldFrame";
import { FormContext } from "@/app/_ui/formContext";
import type { Choice } from "@/app/_ui/SelectField";
import { SIDES } from "@/lib/domain/arrival/damage";
import type { DamageRow } from "./damageRows";

export interface DamageFieldsProps {
  /** The number in the names of its fields. */
  at: number;
  /** The number that it is known by on the page. */
  number: number;
  /** What the row holds; a plain row of a page without scripts holds nothing. */
  row?: DamageRow | undefined;
  parts: readonly Choice[];
  whats: readonly Choice[];
  onChange?: ((to: Partial<DamageRow>) => void) | undefined;
  onRemove?: (() => void) | undefined;
}

const SIDE_CHOICES: readonly Choice[] = SIDES.map((side) => ({ value: side, label: side }));

/** One mark: which side and part, what is wrong there, and a word more. */
export function DamageFields({ at, number, row, parts, whats, onChange, onRemove }: DamageFieldsProps) {
  const name = (field: string) => `damages.${at}.${field}`;
  const select = (field: "side" | "part" | "what", label: string, choices: readonly Choice[]) => (
    <Select
      name={name(field)}
      label={label}
      choices={choices}
      value={row?.[field] ?? ""}
      onValue={onChange && ((value) => onChange({ [field]: value } as Partial<DamageRow>))}
    />
  );
  return (
    <fieldset className="mt-3 border-hair border-b pb-1">
      <legend className="text-[14px] text-soft">Mark {number}</legend>
      {(["x", "y", "firstId"] as const).map((field) => (
        <input key={field} type="hidden" name={name(field)} value={row?.[field] ?? ""} readOnly />
      ))}
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-[minmax(0,2fr)_minmax(0,1fr)_minmax(0,2fr)_minmax(0,3fr)]">
        {select("what", "What is wrong", whats)}
        {select("side", "Side", SIDE_CHOICES)}
        {select("part", "Part", parts)}
        <Note
          name={name("note")}
          value={row?.note ?? ""}
          onValue={onChange && ((note) => onChange({ note }))}
        />
      </div>
      {onRemove && (
        <Button tone="quiet" onClick={onRemove} aria-label={`Remove mark ${number}`}>
          Remove
        </Button>
      )}
    </fieldset>
  );
}

interface OneProps {
  name: string;
  value: string;
  onValue: ((value: string) => void) | undefined;
}

function Select({
  name,
  label,
  choices,
  value,
  onValue,
}: OneProps & { label: string; choices: readonly Choice[] }) {
  const id = useId();
  const error = useContext(FormContext).fields?.[name];
  return (
    <FieldFrame id={id} label={label} error={error}>
      <select
        id={id}
        name={name}
        {...(onValue
          ? { value, onChange: (event) => onValue(event.currentTarget.value) }
          : { defaultValue: value })}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, undefined, error)}
        className={CONTROL}
      >
        {choices.map((one) => (
          <option key={one.value} value={one.value}>
            {one.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

function Note({ name, value, onValue }: OneProps) {
  const id = useId();
  const error = useContext(FormContext).fields?.[name];
  return (
    <FieldFrame id={id} label="More of it" error={error}>
      <input
        id={id}
        name={name}
        maxLength={200}
        autoComplete="off"
        {...(onValue
          ? { value, onChange: (event) => onValue(event.currentTarget.value) }
          : { defaultValue: value })}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, undefined, error)}
        className={CONTROL}
      />
    </FieldFrame>
  );
}
