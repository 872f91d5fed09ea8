import { cx } from "./cx";

export type ButtonTone = "main" | "second" | "quiet" | "danger";
export type ButtonSize = "normal" | "act";

const BOX =
  "inline-flex items-center justify-center gap-2 rounded-[3px] border px-4 text-center font-semibold no-underline disabled:opacity-60 aria-disabled:opacity-60";

const TONE: Record<ButtonTone, string> = {
  main: cx(BOX, "border-main bg-main text-on-main hover:bg-main-over"),
  second: cx(BOX, "border-ink bg-transparent text-ink hover:bg-sheet"),
  danger: cx(BOX, "border-oxide bg-transparent text-oxide hover:bg-oxide-wash"),
  quiet:
    "inline-flex items-center font-semibold text-brass underline decoration-1 underline-offset-[5px] hover:decoration-2 pointer-coarse:min-w-12 pointer-coarse:justify-center disabled:opacity-60",
};

/** Class names of a button or of a link that looks like one. */
export function buttonLook(
  tone: ButtonTone = "second",
  size: ButtonSize = "normal",
  className?: string,
): string {
  const tall = size === "act" ? "min-h-14 text-lg px-6" : tone === "quiet" ? "min-h-6" : "min-h-11";
  return cx(TONE[tone], tall, size === "normal" && "pointer-coarse:min-h-12", "print:hidden", className);
}
