"use client";
import { useEffect, useState } from "react";
import { type LogColumn, mapColumns } from "@/lib/domain/bench/logColumns";
import { Refusal } from "@/lib/domain/refusal";
import { SelectField } from "./SelectField";

/** The headings of a log's text; none while there is no row under them. What reads it is fetched once there is a text. */
async function headingsOf(text: string): Promise<readonly string[]> {
  if (text.trim() === "") return [];
  const { parseCsv } = await import("@/lib/schemas/csv");
  try {
    return parseCsv(text.slice(0, 20_000)).headings;
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return [];
  }
}

/** Which column holds what: by its heading, or as chosen. */
export function ColumnFields({
  text,
  columns,
  typed,
}: {
  text: string;
  columns: readonly LogColumn[];
  typed: Readonly<Record<string, string>>;
}) {
  const [headings, setHeadings] = useState<readonly string[]>([]);
  useEffect(() => {
    let asked = true;
    void headingsOf(text).then((found) => asked && setHeadings(found));
    return () => {
      asked = false;
    };
  }, [text]);
  if (headings.length === 0)
    return (
      <p className="mb-4 text-[14px] text-soft">
        The columns can be chosen once there is a text with a heading.
      </p>
    );
  const guess = mapColumns(columns, headings, {});
  return (
    <div className="grid items-start gap-x-4 sm:grid-cols-2 lg:grid-cols-1 xl:grid-cols-2">
      {columns.map(({ key, name }) => {
        const at = guess[key];
        const found = at === null || at === undefined ? "not found" : headings[at] || `column ${at + 1}`;
        return (
          <SelectField
            key={`${key} ${headings.join("|")}`}
            name={`map.${key}`}
            label={name}
            initial={typed[`map.${key}`] ?? ""}
            options={[
              { value: "", label: `By heading: ${found}` },
              { value: "none", label: "Not in the file" },
              ...headings.map((heading, i) => ({ value: String(i), label: heading || `Column ${i + 1}` })),
            ]}
          />
        );
      })}
    </div>
  );
}
