"use client";
import { useId } from "react";
import { CONTROL } from "./FieldFrame";

export interface TypedFigureProps {
  label: string;
  name: string;
  value: string;
  onType: (value: string) => void;
  className?: string;
  hint?: string;
}

/** A figure that the page reckons with as it is typed. */
export function TypedFigure({ label, name, value, onType, className, hint }: TypedFigureProps) {
  const id = useId();
  return (
    <div className={className ?? "min-w-0"}>
      <label htmlFor={id} className="mb-1 block text-[14px]">
        {label}
      </label>
      <input
        id={id}
        name={name}
        value={value}
        onChange={(event) => onType(event.target.value)}
        inputMode="decimal"
        autoComplete="off"
        aria-describedby={hint ? `${id}-hint` : undefined}
        className={`${CONTROL} font-mono`}
      />
      {hint && (
        <p id={`${id}-hint`} className="mt-1 text-[14px] text-soft">
          {hint}
        </p>
      )}
    </div>
  );
}
