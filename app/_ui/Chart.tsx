import type { ReactNode } from "react";
import { ChartTable } from "./ChartTable";
import { cx } from "./cx";

export interface ChartRows {
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

export interface ChartProps {
  /** Said by screen readers; the visible heading is the section's. */
  title: string;
  description: string;
  /** Drawn over the whole width there is, without scaling the text, when left out; else the drawing's own width. */
  width?: number | undefined;
  height: number;
  /** SVG; x in percent when there is no `width`. */
  children: ReactNode;
  table: ChartRows;
  /** For a container under 520 px: another drawing of the same. */
  narrow?: { readonly height: number; readonly children: ReactNode } | undefined;
  /** For a container of 880 px or more. */
  readonly wide?: { readonly height: number; readonly children: ReactNode } | undefined;
  /** The drawing holds links, so it is a group and not one image. */
  holdsLinks?: boolean | undefined;
  /** HTML beside the drawing: a key to it. */
  legend?: ReactNode;
  /** Room beside the drawing for axis words, as class names. */
  inset?: string | undefined;
}

/** A drawing with its name, its description and its figures as a table behind it. */
export function Chart({ title, description, width, height, children, table, ...rest }: ChartProps) {
  const { narrow, wide } = rest;
  const frame = (tall: number, drawing: ReactNode, className: string) => (
    <svg
      role={rest.holdsLinks ? "group" : "img"}
      aria-label={rest.holdsLinks ? title : undefined}
      width="100%"
      height={width ? undefined : tall}
      viewBox={width ? `0 0 ${width} ${tall}` : undefined}
      overflow="visible"
      className={cx("max-w-full font-sans text-[13px]", className)}
    >
      <title>{title}</title>
      <desc>{description}</desc>
      {drawing}
    </svg>
  );
  return (
    <figure className="@container min-w-0">
      <div className={rest.inset}>
        {frame(
          height,
          children,
          cx("block", narrow && "@max-[520px]:hidden print:block", wide && "@[880px]:hidden print:block"),
        )}
        {narrow && frame(narrow.height, narrow.children, "block @[520px]:hidden print:hidden")}
        {wide && frame(wide.height, wide.children, "hidden @[880px]:block print:hidden")}
      </div>
      {rest.legend}
      <ChartTable
        title={title}
        head={table.head}
        lines={table.rows.map((row) => row.join("\t")).join("\n")}
      />
    </figure>
  );
}
