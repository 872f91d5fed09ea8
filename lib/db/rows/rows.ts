/** How the values of a column are written down so that another kind of database reads the same from them. */
export type ColumnType = "integer" | "real" | "text" | "boolean" | "instant" | "json" | "bytes";

export interface Column {
  readonly name: string;
  readonly type: ColumnType;
}

export interface Table {
  readonly name: string;
  /** Sorted by name, since the two kinds of database keep them in orders of their own. */
  readonly columns: readonly Column[];
  /** What its rows are read in the order of. */
  readonly key: readonly Column[];
}

/**
 * A value as it stands in a row of JSON: null; true or false; a whole number, as text beyond 2^53; a real number, as text where
 * JSON has none for it; text; an instant as the text that was kept (ISO 8601); a JSON column as its text; bytes in base64.
 */
export type Value = null | boolean | number | string;

export type Row = Readonly<Record<string, Value>>;

/** All rows of one shop's database, as they stood at one moment. */
export interface RowSource {
  /** The newest migration it has. */
  readonly level: string;
  /** In an order in which every row's references are there before it, as far as there is one. */
  tables(): Promise<Table[]>;
  rows(table: Table): AsyncGenerator<Row[], void, undefined>;
  /** The last id that each table with counted ids has given out: none is given twice. */
  lastIds(): Promise<Record<string, number>>;
  close(): Promise<void>;
}

/** A migrated database that takes the rows of another. Nothing of it stands before `finish` has answered. */
export interface RowTarget {
  tables(): Promise<Table[]>;
  put(table: Table, rows: readonly Row[]): Promise<void>;
  finish(lastIds: Readonly<Record<string, number>>): Promise<void>;
  /** Lets go of it, without what was put where it was not finished. */
  close(): Promise<void>;
}

/** So many rows are held at once. */
export const ROWS_AT_ONCE = 500;

/** Tables in an order in which each comes after those it refers to; circles are cut where they are met. */
export function inOrder<T extends { readonly name: string }>(
  tables: readonly T[],
  refersTo: ReadonlyMap<string, ReadonlySet<string>>,
): T[] {
  const named = new Map(tables.map((table) => [table.name, table]));
  const ordered = new Set<T>();
  const begun = new Set<string>();
  const visit = (table: T) => {
    if (begun.has(table.name)) return;
    begun.add(table.name);
    for (const other of refersTo.get(table.name) ?? []) {
      const found = named.get(other);
      if (found) visit(found);
    }
    ordered.add(table);
  };
  for (const table of tables) visit(table);
  return [...ordered];
}

export const byName = (a: { name: string }, b: { name: string }) => (a.name < b.name ? -1 : 1);
