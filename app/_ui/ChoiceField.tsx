"use client";
import { type ReactNode, useId } from "react";
import { FieldError } from "./FieldFrame";
import { useFormField } from "./formContext";

export interface ChoiceFieldProps {
  name: string;
  label: ReactNode;
  options: readonly { value: string; label: ReactNode; detail?: ReactNode; disabled?: boolean | undefined }[];
  initial?: string | undefined;
  error?: string | undefined;
}

/** One of a few, all seen at once. */
export function ChoiceField({ name, label, options, initial, ...rest }: ChoiceFieldProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  return (
    <fieldset className="field" aria-describedby={error ? `${id}-error` : undefined}>
      <legend className="mb-1 font-semibold text-[15px]">{label}</legend>
      {options.map((option) => (
        <label key={`${seq}-${option.value}`} className="check">
          <input
            type="radio"
            name={name}
            value={option.value}
            defaultChecked={value === option.value}
            disabled={option.disabled}
            className="tick translate-y-1"
          />
          <span>
            {option.label}
            {option.detail && <span className="block text-[14px] text-soft">{option.detail}</span>}
          </span>
        </label>
      ))}
      <FieldError id={id} error={error} />
    </fieldset>
  );
}
