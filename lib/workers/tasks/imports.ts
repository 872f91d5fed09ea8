import type { KeyWay } from "@/lib/domain/imports/keyWays";
import { readRows } from "@/lib/domain/imports/rows";
import type { RowsByNoun } from "@/lib/domain/imports/rowTypes";
import type {
  FileTerms,
  ImportNoun,
  Mapping,
  ReadRow,
  RowNote,
  RowProblem,
} from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import { type Slices, sliced } from "../slices";

export interface SheetAsked {
  readonly noun: ImportNoun;
  readonly text: string;
  readonly map: Mapping;
  readonly terms: FileTerms;
  readonly way?: KeyWay;
}

export interface ReadSheet<N extends ImportNoun = ImportNoun> {
  readonly headings: readonly string[];
  /** Rows under the heading, understood or not. */
  readonly count: number;
  readonly rows: Slices<ReadRow<RowsByNoun[N]>>;
  readonly problems: Slices<RowProblem>;
  readonly notes: Slices<RowNote>;
}

/** A CSV text read into rows of a noun, with every problem and note in the order of its lines. Throws Refusal. */
export function readSheet({ noun, text, map, terms, way }: SheetAsked): ReadSheet {
  const csv = parseCsv(text);
  if (Object.values(map).some((column) => typeof column === "number" && column >= csv.headings.length))
    throw new Refusal("A column was chosen that this file does not have.", "Choose the columns again.");
  const { rows, problems, notes } = readRows(noun, csv.headings, csv.rows, map, terms, way);
  return {
    headings: csv.headings,
    count: csv.rows.length,
    rows: sliced<ReadRow<RowsByNoun[ImportNoun]>>(rows),
    problems: sliced([...csv.problems, ...problems].sort((a, b) => a.line - b.line)),
    notes: sliced(notes),
  };
}
