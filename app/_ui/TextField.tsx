"use client";
import { type HTMLInputAutoCompleteAttribute, type ReactNode, useId } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface TextFieldProps {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  initial?: string | undefined;
  error?: string | undefined;
  type?: "text" | "email" | "tel" | "url" | "password" | "search" | undefined;
  inputMode?: "text" | "numeric" | "decimal" | "email" | "tel" | "url" | "search" | undefined;
  autoComplete?: HTMLInputAutoCompleteAttribute | undefined;
  required?: boolean | undefined;
  readOnly?: boolean | undefined;
  maxLength?: number | undefined;
  /** Figures and codes stand in mono. */
  mono?: boolean | undefined;
  /** Id of a datalist with suggestions. */
  list?: string | undefined;
  className?: string | undefined;
}

export function TextField({
  name,
  label,
  hint,
  initial,
  mono,
  className,
  type = "text",
  ...rest
}: TextFieldProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      <input
        key={seq}
        id={id}
        name={name}
        type={type}
        defaultValue={type === "password" ? "" : value}
        inputMode={rest.inputMode}
        autoComplete={rest.autoComplete ?? "off"}
        required={rest.required}
        readOnly={rest.readOnly}
        maxLength={rest.maxLength}
        list={rest.list}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, hint, error)}
        className={mono ? `${CONTROL} font-mono` : CONTROL}
      />
    </FieldFrame>
  );
}
