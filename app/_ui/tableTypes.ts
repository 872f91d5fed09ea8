import type { ShapeName, Tone } from "./Shape";

export type ColumnKind = "text" | "money" | "date" | "instant" | "figure" | "state" | "link";

export interface TableColumn {
  readonly key: string;
  readonly header: string;
  /** Text by default. Money and figures stand at the end of their column. */
  readonly kind?: ColumnKind | undefined;
  readonly align?: "start" | "end" | undefined;
  /** The address gets `sort=key` or `sort=-key`. */
  readonly sortable?: boolean | undefined;
  /** For figures. */
  readonly decimals?: number | undefined;
  readonly unit?: string | undefined;
  /** For money: what its numbers are minor units of, where all of them are of one currency. */
  readonly currency?: string | undefined;
}

export interface StateCell {
  readonly shape: ShapeName;
  readonly tone?: Tone | undefined;
  readonly word: string;
  /** Second, quieter line. */
  readonly sub?: string | undefined;
}

export interface MoneyCell {
  readonly minor: number;
  readonly currency: string;
}

export interface LinkCell {
  readonly text: string;
  readonly href: string;
}

export interface LinesCell {
  readonly text: string;
  /** Second, quieter line. */
  readonly sub: string;
}

export type CellValue = string | number | null | StateCell | MoneyCell | LinkCell | LinesCell;

/** One row: its id, where it opens, and a value per column key. */
export interface TableRow {
  readonly id: string;
  readonly href?: string | undefined;
  readonly [column: string]: CellValue | undefined;
}

export interface TableFilter {
  readonly name: string;
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
}

/** The address a list has now: its path and its search parameters. */
export interface TableQuery {
  readonly path: string;
  readonly query: Readonly<Record<string, string | undefined>>;
}
