"use client";
import { useRef } from "react";
import type { DateKind } from "./DateField";

interface Props {
  id: string;
  kind: DateKind;
  value: string;
  min: string | undefined;
  max: string | undefined;
  onValue: (iso: string) => void;
}

/** Opens the device's own calendar or clock, for those who would rather point than type. */
export function NativePicker({ id, kind, value, min, max, onValue }: Props) {
  const control = useRef<HTMLInputElement>(null);
  return (
    <span className="relative flex flex-none">
      <input
        ref={control}
        type={kind}
        value={value}
        min={min}
        max={max}
        onChange={(event) => onValue(event.target.value)}
        tabIndex={-1}
        aria-hidden
        className="pointer-events-none absolute inset-0 opacity-0"
      />
      <button
        type="button"
        // The field's own name, which is in the page's language; that it opens something is said by its kind.
        aria-labelledby={`${id}-label`}
        aria-haspopup="dialog"
        onClick={() => control.current?.showPicker()}
        className="flex w-11 items-center justify-center border-edge border-l hover:bg-hair pointer-coarse:w-12"
      >
        <svg viewBox="0 0 20 20" className="size-5 fill-none stroke-current" aria-hidden="true">
          {kind === "time" ? (
            <path d="M10 2.5a7.5 7.5 0 1 0 0 15a7.5 7.5 0 1 0 0-15M10 5.5V10l3 2" />
          ) : (
            <path d="M2.5 4.5h15v13h-15zM2.5 8.5h15M6 2v4M14 2v4" />
          )}
        </svg>
      </button>
    </span>
  );
}
