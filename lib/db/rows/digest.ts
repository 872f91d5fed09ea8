import { createHash } from "node:crypto";
import canonicalize from "canonicalize";
import type { ColumnType, Row, RowSource, Table, Value } from "./rows";

export interface TableDigest {
  readonly rows: number;
  /** SHA-256 over its rows in the order of their keys: the same on both kinds of database for the same content. */
  readonly digest: string;
}

/** Counts and digests a table's rows as they pass. */
export function tableHash(table: Table): { add(rows: readonly Row[]): void; done(): TableDigest } {
  const hash = createHash("sha256");
  let count = 0;
  return {
    add: (rows) => {
      count += rows.length;
      for (const row of rows) hash.update(`${lineOf(table, row)}\n`);
    },
    done: () => ({ rows: count, digest: hash.digest("hex") }),
  };
}

/** The counts and digests of all tables. */
export async function digestsOf(source: RowSource): Promise<Record<string, TableDigest>> {
  const found: [string, TableDigest][] = [];
  for (const table of await source.tables()) {
    const hash = tableHash(table);
    for await (const some of source.rows(table)) hash.add(some);
    found.push([table.name, hash.done()]);
  }
  return Object.fromEntries(found.sort(([a], [b]) => (a < b ? -1 : 1)));
}

const lineOf = (table: Table, row: Row) =>
  JSON.stringify(table.columns.map(({ name, type }) => plain(type, row[name] ?? null)));

/** PostgreSQL keeps JSON in an order and spacing of its own, and instants without the form they came in. */
function plain(type: ColumnType, value: Value): Value {
  if (value === null) return null;
  if (type === "json") return canonicalize(JSON.parse(String(value))) ?? "null";
  if (type === "instant") return new Date(typeof value === "number" ? value : String(value)).toISOString();
  return value;
}
