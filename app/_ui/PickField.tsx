"use client";
import { type ReactNode, useId, useRef, useState } from "react";
import type { Pick } from "@/lib/schemas/picks";
import { CONTROL, describedBy, FieldFrame } from "./FieldFrame";
import { useFormField } from "./formContext";
import { liveModule, useLive } from "./liveModule";
import { type PickFrom, rowText } from "./pickRows";

export interface PickFieldProps<T extends Pick = Pick> {
  shop: string;
  /** What is chosen from. */
  from: PickFrom;
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  /** Offered before anything is typed, and all that is offered without scripts. */
  newest: readonly T[];
  /** The one it begins with. */
  chosen?: T | null | undefined;
  /** What no choice means, such as a walk-in. */
  blank?: string | undefined;
  required?: boolean | undefined;
  onPick?: ((row: T | null) => void) | undefined;
  className?: string | undefined;
}

const PICKING = liveModule(() => import("./PickLive"));

/** One record, found by typing: the server is asked as words are typed. Without scripts it is a list of the newest. */
export function PickField<T extends Pick>(props: PickFieldProps<T>) {
  const { shop, from, name, label, hint, newest, chosen, blank, required, className } = props;
  const id = useId();
  const { value, error, seq } = useFormField(name, chosen?.value);
  const plain = useRef<HTMLSelectElement>(null);
  const [picked, setPicked] = useState<T | null>(chosen ?? null);
  const offered = chosen && !newest.some((row) => row.value === chosen.value) ? [chosen, ...newest] : newest;
  const pick = (row: Pick | null) => {
    setPicked(row as T | null);
    props.onPick?.(row as T | null);
  };
  const find = (one: string) => offered.find((row) => row.value === one) ?? null;
  const live = useLive(PICKING, plain, (one) => pick(find(one)));
  const described = describedBy(id, hint, error);
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} className={className}>
      {live ? (
        <live.PickLive
          id={id}
          shop={shop}
          from={from}
          name={name}
          newest={offered}
          picked={picked}
          blank={blank}
          required={required}
          invalid={error !== undefined}
          described={described}
          seq={seq}
          value={value}
          onPick={pick}
        />
      ) : (
        <select
          key={seq}
          ref={plain}
          id={id}
          name={name}
          defaultValue={value}
          onChange={(event) => pick(find(event.target.value))}
          required={required}
          aria-invalid={error ? true : undefined}
          aria-describedby={described}
          className={CONTROL}
        >
          <option value="">{blank ?? "Choose"}</option>
          {offered.map((row) => (
            <option key={row.value} value={row.value}>
              {rowText(row)}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}
