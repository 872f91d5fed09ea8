import { Cells } from "./cells";
import { IMPORT_FIELDS } from "./fields";
import { bikeGroups, bikeWords, customerGroups, customerWords, fingerprint, type KeyWay } from "./keyWays";
import { filled, joinRows, mergeRows } from "./merge";
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

/** How the rows of noun and way are named, and which of them are one. Parts and prices have codes. */
const WORDS: {
  readonly [N in ImportNoun]?: {
    readonly key: (row: RowsByNoun[N]) => string;
    readonly groups: (rows: readonly RowsByNoun[N][]) => number[];
  };
} = {
  customers: { key: customerWords, groups: customerGroups },
  bikes: { key: bikeWords, groups: bikeGroups },
};

/**
 * Reads the rows of a file by a mapping of fields to columns. Answers every row that is understood, every problem of
 * every row, and notes of what was done unasked. Rows with one key are merged or refused (mergeRows); where they are known by
 * what they say, those that are surely one are joined (joinRows). Pure.
 */
export function readRows<N extends ImportNoun>(
  noun: N,
  headings: readonly string[],
  rows: readonly FileRow[],
  mapping: Mapping,
  terms: FileTerms,
  way: KeyWay = "column",
): ReadFile<RowsByNoun[N]> {
  const words = way === "column" ? undefined : WORDS[noun];
  const missing = IMPORT_FIELDS[noun].filter(
    (field) => field.needed && typeof mapping[field.key] !== "number" && !(words && field.key === KEYS[noun]),
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
    const coded = noun === "parts" || noun === "prices";
    const key = words ? "" : cells.needed(KEYS[noun], coded ? 60 : 80, coded ? "code" : "key");
    const values = READERS[noun](cells);
    notes.push(...cells.notes);
    if (cells.problems.length > 0 || key === undefined) problems.push(...cells.problems);
    else understood.push({ line: row.line, key, values });
  }
  const names = Object.fromEntries(IMPORT_FIELDS[noun].map((field) => [field.key, field.name.toLowerCase()]));
  const named = { ...names, odometerKm: "odometer" };
  if (!words)
    return mergeRows(
      { rows: understood, problems, notes },
      headings[mapping[KEYS[noun]] as number] ?? "",
      named,
    );
  const known =
    way === "row"
      ? understood.map((row) => ({ ...row, key: `row | ${fingerprint(JSON.stringify(row.values))}` }))
      : inGroups(understood, words.groups, words.key);
  return joinRows({ rows: known, problems, notes }, named);
}

/** Rows with the key of what their group says together. */
function inGroups<T extends object>(
  rows: readonly ReadRow<T>[],
  groups: (rows: readonly T[]) => number[],
  key: (row: T) => string,
): ReadRow<T>[] {
  const group = groups(rows.map((row) => row.values));
  const whole = new Map<number, T>();
  for (const [at, row] of rows.entries()) {
    const first = whole.get(group[at] ?? -1);
    whole.set(group[at] ?? -1, first ? ({ ...row.values, ...filled(first) } as T) : row.values);
  }
  return rows.map((row, at) => ({ ...row, key: key(whole.get(group[at] ?? -1) ?? row.values) }));
}
