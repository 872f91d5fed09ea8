"use client";
import { type KeyboardEvent, type ReactNode, useId, useRef } from "react";
import { describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";
import { decimalsOf, stepped } from "./stepped";
import { words } from "./words";

export interface NumberFieldProps {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  initial?: number | string | undefined;
  error?: string | undefined;
  unit?: string | undefined;
  step?: number | undefined;
  decimals?: number | undefined;
  min?: number | undefined;
  max?: number | undefined;
  required?: boolean | undefined;
  className?: string | undefined;
}

/** A number with a unit and a step either way. It is sent as typed: a decimal comma may arrive. */
export function NumberField({
  name,
  label,
  hint,
  initial,
  unit,
  step = 1,
  className,
  ...rest
}: NumberFieldProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const { value, error: said, seq } = useFormField(name, initial === undefined ? "" : String(initial));
  const error = said ?? rest.error;
  const range = { step, decimals: rest.decimals ?? decimalsOf(step), min: rest.min, max: rest.max };
  const go = (direction: 1 | -1) => {
    const control = input.current;
    if (!control) return;
    control.value = stepped(control.value, direction, range);
    control.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    event.preventDefault();
    go(event.key === "ArrowUp" ? 1 : -1);
  };
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      <div className="number-room">
        <div className="number">
          <button type="button" tabIndex={-1} aria-label={words.less} onClick={() => go(-1)}>
            −
          </button>
          <input
            key={seq}
            ref={input}
            id={id}
            name={name}
            type="text"
            inputMode="decimal"
            autoComplete="off"
            defaultValue={value}
            required={rest.required}
            onKeyDown={onKeyDown}
            aria-invalid={error ? true : undefined}
            aria-describedby={describedBy(id, hint, error)}
          />
          {unit && <span data-unit>{unit}</span>}
          <button type="button" tabIndex={-1} aria-label={words.more} onClick={() => go(1)}>
            +
          </button>
        </div>
      </div>
    </FieldFrame>
  );
}
