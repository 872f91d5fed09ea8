import { cx } from "./cx";

export type ButtonTone = "main" | "second" | "quiet" | "danger";
export type ButtonSize = "normal" | "act";

/** Class names of a button or of a link that looks like one. */
export function buttonLook(
  tone: ButtonTone = "second",
  size: ButtonSize = "normal",
  className?: string,
): string {
  return cx(
    tone === "quiet" ? "button-quiet" : `button button-${tone}`,
    size === "act" && "button-act",
    className,
  );
}
