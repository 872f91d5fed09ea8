import type { ReactNode } from "react";
import { cx } from "./cx";
import { Shape } from "./Shape";

export interface FieldFrameProps {
  id: string;
  label: ReactNode;
  hint?: ReactNode;
  error?: string | undefined;
  children: ReactNode;
  className?: string | undefined;
}

/** Ids that describe a field: its hint and its error, where there are any. */
export function describedBy(id: string, hint: ReactNode, error: string | undefined): string | undefined {
  return [hint ? `${id}-hint` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ") || undefined;
}

/** The box of a text-like control. */
export const CONTROL = "control";

/** Label above, control, then hint and error below. */
export function FieldFrame({ id, label, hint, error, children, className }: FieldFrameProps) {
  return (
    <div className={cx("field", className)}>
      <label id={`${id}-label`} htmlFor={id} className="field-name">
        {label}
      </label>
      {children}
      {hint && (
        <p id={`${id}-hint`} className="field-hint">
          {hint}
        </p>
      )}
      <FieldError id={id} error={error} />
    </div>
  );
}

/** A field's error, in words and shape. */
export function FieldError({ id, error }: { id: string; error: string | undefined }) {
  if (!error) return null;
  return (
    <p id={`${id}-error`} className="mt-1 flex items-baseline gap-1.5 text-[14px] text-oxide">
      <Shape shape="diamond" tone="oxide" />
      <span>{error}</span>
    </p>
  );
}
