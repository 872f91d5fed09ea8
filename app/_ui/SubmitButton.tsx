"use client";
import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";
import { useKitWords } from "./kitWords";
import { useSlow } from "./useSlow";

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

/** Sends the form it stands in; rests while the form is on its way, and after a second says so. */
export function SubmitButton({
  tone = "main",
  size,
  children,
  name,
  value,
  className,
  disabled,
}: SubmitButtonProps) {
  const words = useKitWords();
  const { pending, data } = useFormStatus();
  const pressed = name === undefined || data?.get(name) === value;
  const told = useSlow(pending) && pressed;
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
      {pending && <span className={told ? "font-normal" : "sr-only"}>, {words.sending}</span>}
    </button>
  );
}
