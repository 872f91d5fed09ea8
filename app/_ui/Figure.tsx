import { cx } from "./cx";
import { figureText } from "./format";

export interface FigureProps {
  value: number | string;
  unit?: string | undefined;
  locale?: string | undefined;
  decimals?: number | undefined;
  /** 22 px, for the one figure a part is about. */
  large?: boolean | undefined;
  className?: string | undefined;
}

/** A figure in mono with its unit. Text stays as it is; a number is written by locale. */
export function Figure({ value, unit, locale = "en", decimals, large, className }: FigureProps) {
  return (
    <span className={cx("whitespace-nowrap font-mono tabular-nums", large && "text-[22px]", className)}>
      {typeof value === "number" ? figureText(value, locale, decimals) : value}
      {unit && <span className={large ? "" : "text-soft"}> {unit}</span>}
    </span>
  );
}
