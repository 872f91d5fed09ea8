"use client";
import { useState } from "react";
import { words } from "./words";

interface Props {
  readonly title: string;
  readonly head: readonly string[];
  /** A line for each row, its cells parted by tabs: shorter to send than lists of lists. */
  readonly lines: string;
}

/** A drawing's figures as a table, made when it is opened: of a page's weight it would be the most, and few open it. */
export function ChartTable({ title, head, lines }: Props) {
  const [opened, setOpened] = useState(false);
  return (
    <details className="mt-1 print:hidden" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary className="inline-flex min-h-6 items-center text-[13px] text-soft underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
        {words.asTable}
      </summary>
      {opened && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls, by keys as well
        <section aria-label={title} tabIndex={0} className="overflow-x-auto">
          <table className="my-2 border-collapse text-[14px]">
            <caption className="sr-only">{title}</caption>
            <thead>
              <tr>
                {head.map((name) => (
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
              {lines.split("\n").map((line, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the rows of a drawing never move
                <tr key={at}>
                  {line.split("\t").map((cell, column) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: nor do its columns
                    <td key={column} className="border-hair border-b py-1 pr-4 font-mono">
                      {cell}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </details>
  );
}
