import { Cells } from "./cells";
import { IMPORT_FIELDS } from "./fields";
import { mergeRows } from "./merge";
import { READERS } from "./readers";
import type { RowsByNoun } from "./rowTypes";
import type {
  FileRow,
  FileTerms,
  ImportNoun,
  Mapping,
  ReadFile,
  ReadRow,
  RowNote,
  RowProblem,
} from "./types";

const KEYS: Readonly<Record<ImportNoun, string>> = {
  customers: "importKey",
  bikes: "importKey",
  parts: "code",
  prices: "code",
};

/**
 * Reads the rows of a file by a mapping of fields to columns. Answers every row that is understood, every problem of
 * every row, and notes of what was done unasked; rows with one key are merged or refused (mergeRows). Pure.
 */
export function readRows<N extends ImportNoun>(
  noun: N,
  headings: readonly string[],
  rows: readonly FileRow[],
  mapping: Mapping,
  terms: FileTerms,
): ReadFile<RowsByNoun[N]> {
  const missing = IMPORT_FIELDS[noun].filter(
    (field) => field.needed && typeof mapping[field.key] !== "number",
  );
  if (missing.length > 0)
    return {
      rows: [],
      notes: [],
      problems: missing.map((field) => ({
        line: 1,
        column: "",
        value: "",
        wrong: `No column is chosen for ${field.name.toLowerCase()}`,
        remedy: "Choose the column it stands in.",
      })),
    };
  const understood: ReadRow<RowsByNoun[N]>[] = [];
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  for (const row of rows) {
    if (row.cells.every((cell) => cell.trim() === "")) continue;
    const cells = new Cells(row, headings, mapping, terms);
    if (row.cells.slice(headings.length).some((cell) => cell.trim() !== ""))
      cells.problems.push({
        line: row.line,
        column: "",
        value: "",
        wrong: `has ${row.cells.length} cells, and the heading ${headings.length}`,
        remedy: "Put quotes round a text that holds the separator.",
      });
    const key = cells.needed(
      KEYS[noun],
      noun === "parts" || noun === "prices" ? 60 : 80,
      noun === "parts" || noun === "prices" ? "code" : "key",
    );
    const values = READERS[noun](cells);
    notes.push(...cells.notes);
    if (cells.problems.length > 0 || key === undefined) problems.push(...cells.problems);
    else understood.push({ line: row.line, key, values });
  }
  const names = Object.fromEntries(IMPORT_FIELDS[noun].map((field) => [field.key, field.name.toLowerCase()]));
  return mergeRows({ rows: understood, problems, notes }, headings[mapping[KEYS[noun]] as number] ?? "", {
    ...names,
    odometerKm: "odometer",
  });
}
