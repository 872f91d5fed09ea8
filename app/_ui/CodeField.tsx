"use client";
import { type ReactNode, useId, useRef, useState } from "react";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";
import { liveModule, useLive } from "./liveModule";
import type { PickFrom } from "./pickRows";

export interface CodeFieldProps {
  shop: string;
  from: PickFrom;
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  initial?: string | undefined;
  className?: string | undefined;
}

const CODES = liveModule(() => import("./CodeLive"));

/** A part's code, typed or found by words of its name. Anything may stand in it; without scripts it is typed in full. */
export function CodeField({ shop, from, name, label, hint, initial, className }: CodeFieldProps) {
  const id = useId();
  const { value, error, seq } = useFormField(name, initial);
  const plain = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState<string>();
  const live = useLive(CODES, plain, setTyped);
  const about = {
    id,
    name,
    invalid: error !== undefined,
    described: describedBy(id, hint, error),
  };
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      {live ? (
        <live.CodeLive key={seq} {...about} shop={shop} from={from} initial={typed ?? value} />
      ) : (
        <input
          key={seq}
          ref={plain}
          id={id}
          name={name}
          defaultValue={value}
          onChange={(event) => setTyped(event.target.value)}
          autoComplete="off"
          maxLength={120}
          aria-invalid={about.invalid || undefined}
          aria-describedby={about.described}
          className={`${CONTROL} font-mono`}
        />
      )}
    </FieldFrame>
  );
}
