"use client";
import { type ReactNode, useId } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface TextAreaProps {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  initial?: string | undefined;
  error?: string | undefined;
  rows?: number | undefined;
  required?: boolean | undefined;
  maxLength?: number | undefined;
  className?: string | undefined;
}

export function TextArea({ name, label, hint, initial, className, rows = 4, ...rest }: TextAreaProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      <textarea
        key={seq}
        id={id}
        name={name}
        rows={rows}
        defaultValue={value}
        required={rest.required}
        maxLength={rest.maxLength}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, hint, error)}
        className={`${CONTROL} py-2`}
      />
    </FieldFrame>
  );
}
