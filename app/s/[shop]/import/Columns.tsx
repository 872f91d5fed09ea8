"use client";
import { useId } from "react";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import type { KeyWay } from "@/lib/domain/imports/keyWays";
import type { ImportNoun, Mark } from "@/lib/domain/imports/types";
import type { ParsedCsv } from "@/lib/schemas/csv";

export interface Terms {
  readonly mark: Mark;
  readonly distance: "km" | "mi";
}

export interface ColumnsProps {
  readonly noun: ImportNoun;
  readonly csv: ParsedCsv;
  readonly map: Readonly<Record<string, number | null>>;
  readonly terms: Terms;
  readonly withCost: boolean;
  readonly way: KeyWay;
  readonly onWay: (way: KeyWay) => void;
  readonly onMap: (map: Record<string, number | null>) => void;
  readonly onTerms: (terms: Terms) => void;
}

/** The first text that stands in a column, as an example of what it holds. */
function exampleOf(csv: ParsedCsv, column: number | null | undefined): string {
  if (column === null || column === undefined) return "";
  return (
    csv.rows
      .find((row) => row.cells[column]?.trim())
      ?.cells[column]?.trim()
      .slice(0, 40) ?? "nothing in any row"
  );
}

const WAYS = {
  customers: { column: "A number of the file", words: "Name and phone", row: "The whole row" },
  bikes: { column: "A number of the file", words: "Frame number or plate", row: "The whole row" },
};

const WAY_ABOUT: Readonly<Record<KeyWay, string>> = {
  column: "The same number is the same one, whatever else has changed.",
  words: "Rows that are surely one are taken together; the file again finds them.",
  row: "A row that changes in any cell counts as new.",
};

/** Which column of the file holds which field: guessed by the headings, open to change. */
export function Columns({ noun, csv, map, terms, withCost, way, onWay, onMap, onTerms }: ColumnsProps) {
  const id = useId();
  const grid =
    "grid items-center gap-x-4 gap-y-1 border-hair border-b py-2 sm:grid-cols-[200px_minmax(0,260px)_minmax(0,1fr)]";
  return (
    <>
      {(noun === "customers" || noun === "bikes") && (
        <div className={grid}>
          <label htmlFor={`${id}way`}>
            <span className="font-semibold">Rows are known by</span>
            <span className="block text-[14px] text-soft">Chosen for this file; you may change it</span>
          </label>
          <select
            id={`${id}way`}
            value={way}
            onChange={({ currentTarget: { value } }) => onWay(value as KeyWay)}
            className={CONTROL}
          >
            {Object.entries(WAYS[noun]).map(([value, name]) => (
              <option key={value} value={value}>
                {name}
              </option>
            ))}
          </select>
          <span className="text-[14px] text-soft">{WAY_ABOUT[way]}</span>
        </div>
      )}
      {IMPORT_FIELDS[noun]
        .filter((field) => withCost || field.key !== "costE4")
        .filter((field) => way === "column" || field.key !== "importKey")
        .map((field) => (
          <div key={field.key} className={grid}>
            <label htmlFor={id + field.key}>
              <span className="font-semibold">{field.name}</span>
              {field.needed && <span className="text-[14px] text-soft"> needed</span>}
              {field.about && <span className="block text-[14px] text-soft">{field.about}</span>}
            </label>
            <select
              id={id + field.key}
              value={map[field.key] ?? ""}
              aria-invalid={field.needed && typeof map[field.key] !== "number" ? true : undefined}
              onChange={({ currentTarget: { value } }) =>
                onMap({ ...map, [field.key]: value === "" ? null : Number(value) })
              }
              className={CONTROL}
            >
              <option value="">{field.needed ? "choose its column" : "not in the file"}</option>
              {csv.headings.map((heading, column) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place; two may have one heading
                <option key={column} value={column}>
                  {heading || `Column ${column + 1}`}
                </option>
              ))}
            </select>
            <span className="min-w-0 truncate font-mono text-[14px] text-soft">
              {exampleOf(csv, map[field.key])}
            </span>
          </div>
        ))}
      <div className={grid}>
        <label htmlFor={`${id}mark`} className="font-semibold">
          A number such as 1,250 or 1.250
        </label>
        <select
          id={`${id}mark`}
          value={terms.mark}
          onChange={({ currentTarget: { value } }) => onTerms({ ...terms, mark: value === "," ? "," : "." })}
          className={CONTROL}
        >
          <option value=".">1,250 is a thousand and more</option>
          <option value=",">1,250 is one and a quarter</option>
        </select>
        <span className="text-[14px] text-soft">Others are understood either way.</span>
      </div>
      {noun === "bikes" && (
        <div className={grid}>
          <label htmlFor={`${id}distance`} className="font-semibold">
            Odometers are in
          </label>
          <select
            id={`${id}distance`}
            value={terms.distance}
            onChange={({ currentTarget: { value } }) =>
              onTerms({ ...terms, distance: value === "mi" ? "mi" : "km" })
            }
            className={CONTROL}
          >
            <option value="km">kilometres</option>
            <option value="mi">miles</option>
          </select>
        </div>
      )}
    </>
  );
}
