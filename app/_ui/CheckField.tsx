"use client";
import { type ReactNode, useId } from "react";
import { cx } from "./cx";
import { FieldError } from "./FieldFrame";
import { useFormTick } from "./formContext";

export interface CheckFieldProps {
  name: string;
  label: ReactNode;
  /** Sent when ticked; several boxes may share a name with different values. */
  value?: string | undefined;
  initial?: boolean | undefined;
  /** Shown so for as long as the asker says so, whatever is clicked; without it the box keeps its own state. */
  shown?: boolean | undefined;
  /** Second line: why, what follows. */
  detail?: ReactNode;
  /** Stands at the right: minutes, a size, a price. */
  figure?: ReactNode;
  error?: string | undefined;
  /** Cannot be chosen now; `detail` says why. */
  disabled?: boolean | undefined;
  /** Round: of those that share its name one is chosen. */
  one?: boolean | undefined;
  /** Rules a hair line below, for lists. */
  ruled?: boolean | undefined;
  onChange?: ((ticked: boolean) => void) | undefined;
}

/** A square box with its words, a second line and a figure; round where one of several is chosen. */
export function CheckField({
  name,
  label,
  value = "on",
  initial,
  detail,
  figure,
  ruled,
  one,
  ...rest
}: CheckFieldProps) {
  const id = useId();
  const { ticked, error: said, seq } = useFormTick(name, value, initial);
  const error = said ?? rest.error;
  const state = rest.shown === undefined ? { defaultChecked: ticked } : { checked: rest.shown };
  const described =
    [detail ? `${id}-detail` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ") || undefined;
  return (
    <div className={cx("min-w-0", ruled ? "border-hair border-b" : "mb-2")}>
      <label htmlFor={id} className={cx("check", rest.disabled && "text-soft")}>
        <input
          key={seq}
          id={id}
          type={one ? "radio" : "checkbox"}
          name={name}
          value={value}
          {...state}
          disabled={rest.disabled}
          aria-invalid={error ? true : undefined}
          aria-describedby={described}
          onChange={(event) => rest.onChange?.(event.currentTarget.checked)}
          className="tick peer translate-y-1"
        />
        <span className="peer-checked:font-semibold">{label}</span>
        <span className="font-mono">{figure}</span>
        {detail && (
          <span id={`${id}-detail`} className="col-span-2 col-start-2 text-[14px] text-soft">
            {detail}
          </span>
        )}
      </label>
      <FieldError id={id} error={error} />
    </div>
  );
}
