export type ImportNoun = "customers" | "bikes" | "parts" | "prices";
export const IMPORT_NOUNS: readonly ImportNoun[] = ["customers", "bikes", "parts", "prices"];

/** One row of a file: the line it begins on (the heading is line 1) and its cells. */
export interface FileRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** Why a row cannot come in: where, what stands there, what is wrong, what to do. */
export interface RowProblem {
  readonly line: number;
  /** The file's own heading of the cell; "" for the whole row. */
  readonly column: string;
  readonly value: string;
  readonly wrong: string;
  readonly remedy: string;
}

/** Something that was done to a row without asking, so that nobody is surprised. */
export interface RowNote {
  readonly line: number;
  readonly text: string;
}

/** A row that was understood. A value that is undefined stood blank, or its column was not chosen. */
export interface ReadRow<T> {
  readonly line: number;
  readonly key: string;
  readonly values: T;
  /** The record here that this row is taken for, though it is not known by the row's key. */
  readonly target?: number;
}

export interface ReadFile<T> {
  readonly rows: readonly ReadRow<T>[];
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
}

export type Mark = "." | ",";

/** What holds for a whole file. */
export interface FileTerms {
  readonly currency: string;
  /** The decimal mark where a number could be read in two ways. */
  readonly mark: Mark;
  readonly distance: "km" | "mi";
}

/** Field key -> column of the file; null or absent: not in the file. */
export type Mapping = Readonly<Record<string, number | null | undefined>>;
