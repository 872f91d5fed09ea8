"use client";
import { type ReactNode, useId } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface Choice {
  readonly value: string;
  readonly label: string;
  readonly disabled?: boolean | undefined;
}

export interface SelectFieldProps {
  name: string;
  label: ReactNode;
  options: readonly Choice[];
  hint?: ReactNode;
  initial?: string | undefined;
  error?: string | undefined;
  required?: boolean | undefined;
  className?: string | undefined;
}

export function SelectField({ name, label, options, hint, initial, className, ...rest }: SelectFieldProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      <select
        key={seq}
        id={id}
        name={name}
        defaultValue={value}
        required={rest.required}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, hint, error)}
        className={CONTROL}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value} disabled={option.disabled}>
            {option.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
