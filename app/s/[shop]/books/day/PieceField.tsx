"use client";
import { useId } from "react";
import { CONTROL, describedBy, FieldError } from "@/app/_ui/FieldFrame";
import { useFormField } from "@/app/_ui/formContext";

/** How many there are of one coin or note, and what they come to: the three cells of a row. */
export function PieceField({
  name,
  label,
  kind,
  comesTo,
}: {
  name: string;
  label: string;
  kind: "note" | "coin";
  comesTo: string;
}) {
  const id = useId();
  const { value, error, seq } = useFormField(name);
  return (
    <>
      <label htmlFor={id} className="text-end">
        <span className="font-mono">{label}</span> <span className="text-[14px] text-soft">{kind}</span>
      </label>
      <input
        key={seq}
        id={id}
        name={name}
        type="text"
        inputMode="numeric"
        autoComplete="off"
        maxLength={5}
        defaultValue={value}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, undefined, error)}
        className={`${CONTROL} text-center font-mono`}
      />
      <span className="min-w-0 font-mono text-soft">
        = {comesTo}
        <FieldError id={id} error={error} />
      </span>
    </>
  );
}
