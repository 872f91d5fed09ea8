"use client";
import { type ReactNode, useId } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface DateFieldProps {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  /** ISO: 2026-11-25, 10:30, or 2026-11-25T10:30 by kind. */
  initial?: string | undefined;
  kind?: "date" | "time" | "datetime-local" | undefined;
  error?: string | undefined;
  min?: string | undefined;
  max?: string | undefined;
  required?: boolean | undefined;
  className?: string | undefined;
}

/** The browser's own date or time control: it knows the person's calendar. */
export function DateField({ name, label, hint, initial, kind = "date", className, ...rest }: DateFieldProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      <input
        key={seq}
        id={id}
        name={name}
        type={kind}
        defaultValue={value}
        min={rest.min}
        max={rest.max}
        required={rest.required}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, hint, error)}
        className={`${CONTROL} font-mono`}
      />
    </FieldFrame>
  );
}
