"use client";
import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";
import { words } from "./words";

export interface SubmitButtonProps {
  tone?: ButtonTone | undefined;
  size?: ButtonSize | undefined;
  children: ReactNode;
  /** Sent with the form, when one form has several acts. */
  name?: string | undefined;
  value?: string | undefined;
  className?: string | undefined;
  disabled?: boolean | undefined;
}

/** Sends the form it stands in; rests while the form is on its way. */
export function SubmitButton({
  tone = "main",
  size,
  children,
  name,
  value,
  className,
  disabled,
}: SubmitButtonProps) {
  const { pending } = useFormStatus();
  return (
    <button
      type="submit"
      name={name}
      value={value}
      disabled={disabled}
      // Not `disabled` while on its way: that would take the focus off it.
      aria-disabled={pending || undefined}
      className={buttonLook(tone, size, className)}
    >
      {children}
      {pending && <span className="sr-only">, {words.sending}</span>}
    </button>
  );
}
