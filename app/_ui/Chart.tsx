import type { ReactNode } from "react";
import { cx } from "./cx";
import { words } from "./words";

export interface ChartTable {
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
  table: ChartTable;
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
      <details className="mt-1 print:hidden">
        <summary className="inline-flex min-h-6 items-center text-[13px] text-soft underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
          {words.asTable}
        </summary>
        <div className="overflow-x-auto">
          <table className="my-2 border-collapse text-[14px] [&_td]:border-hair [&_td]:border-b [&_td]:py-1 [&_td]:pr-4 [&_td]:font-mono">
            <caption className="sr-only">{title}</caption>
            <thead>
              <tr>
                {table.head.map((name) => (
                  <th
                    key={name}
                    scope="col"
                    className="border-rule border-b py-1 pr-4 text-start font-semibold text-soft"
                  >
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the rows of a drawing never move
                <tr key={at}>
                  {row.map((cell, column) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: nor do its columns
                    <td key={column}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </figure>
  );
}
