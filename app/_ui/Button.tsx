import type { ButtonHTMLAttributes } from "react";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";

export interface ButtonProps extends ButtonHTMLAttributes<HTMLButtonElement> {
  tone?: ButtonTone | undefined;
  size?: ButtonSize | undefined;
}

/** A button that does something here. For sending a form, `SubmitButton`. */
export function Button({ tone, size, className, type = "button", ...rest }: ButtonProps) {
  return <button type={type} className={buttonLook(tone, size, className)} {...rest} />;
}
