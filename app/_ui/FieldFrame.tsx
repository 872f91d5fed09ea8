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
export const CONTROL =
  "w-full min-w-0 rounded-[3px] border border-edge bg-sheet px-3 min-h-11 pointer-coarse:min-h-12 text-ink aria-invalid:border-2 aria-invalid:border-oxide disabled:text-soft read-only:bg-paper";

/** Label above, control, then hint and error below. */
export function FieldFrame({ id, label, hint, error, children, className }: FieldFrameProps) {
  return (
    <div className={cx("mb-4 min-w-0", className)}>
      <label id={`${id}-label`} htmlFor={id} className="mb-1 block font-semibold text-[15px]">
        {label}
      </label>
      {children}
      {hint && (
        <p id={`${id}-hint`} className="mt-1 text-[14px] text-soft">
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
