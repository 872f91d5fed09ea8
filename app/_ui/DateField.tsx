"use client";
import { type ReactNode, useId, useRef, useState } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";
import { liveModule, useLive } from "./liveModule";
import { useShopLocale } from "./localeContext";

export type DateKind = "date" | "time" | "datetime-local";

export interface DateFieldProps {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  /** ISO: 2026-11-25, 10:30, or 2026-11-25T10:30 by kind. It is sent so too, in whatever form it is typed. */
  initial?: string | undefined;
  kind?: DateKind | undefined;
  error?: string | undefined;
  /** First and last that the calendar offers; what is typed is judged by the server. */
  min?: string | undefined;
  max?: string | undefined;
  required?: boolean | undefined;
  /** The form it is typed in; by default that of the shop whose page this is. */
  locale?: string | undefined;
  /** Called with the text that would be sent, at each change of it. */
  onValue?: ((text: string) => void) | undefined;
  className?: string | undefined;
}

const SEGMENTS = liveModule(() => import("./DateSegments"));

/** A date or a time in the shop's form. Without scripts it is the browser's own control, in the browser's form. */
export function DateField({ name, label, hint, initial, kind = "date", className, ...rest }: DateFieldProps) {
  const id = useId();
  const { value, error: said, seq } = useFormField(name, initial);
  const error = said ?? rest.error;
  const ownLocale = useShopLocale();
  const plain = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState<string>();
  const live = useLive(SEGMENTS, plain, setTyped);
  const about = {
    id,
    name,
    kind,
    min: rest.min,
    max: rest.max,
    required: rest.required,
    described: describedBy(id, hint, error),
    invalid: error !== undefined,
  };
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      {live ? (
        <live.DateSegments
          {...about}
          locale={rest.locale ?? ownLocale}
          seq={seq}
          value={value}
          typed={typed}
          onValue={rest.onValue}
        />
      ) : (
        <input
          key={seq}
          ref={plain}
          id={id}
          name={name}
          type={kind}
          defaultValue={value}
          onChange={(event) => {
            setTyped(event.target.value);
            rest.onValue?.(event.target.value);
          }}
          min={about.min}
          max={about.max}
          required={about.required}
          aria-invalid={about.invalid || undefined}
          aria-describedby={about.described}
          className={`${CONTROL} font-mono`}
        />
      )}
    </FieldFrame>
  );
}
