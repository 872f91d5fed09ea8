import Database from "better-sqlite3";
import { stateOfFile } from "../applied";
import { ROWS_AT_ONCE, type Row, type RowSource, type RowTarget, type Table } from "./rows";
import { fromSqlite, quoted, sqliteTables, toSqlite } from "./sqliteColumns";

/** Reads a shop's file. It is read as it stood when it was opened, whatever is written meanwhile. */
export function sqliteSource(file: string): RowSource {
  const level = [...stateOfFile(file).applied].sort().at(-1) ?? "";
  const raw = new Database(file, { readonly: true, fileMustExist: true });
  raw.exec("BEGIN");
  return {
    level,
    tables: async () => sqliteTables(raw),
    rows: (table) => rowsOf(raw, table),
    lastIds: async () => {
      const rows = raw.prepare(`SELECT name, seq FROM sqlite_sequence ORDER BY name`).all();
      return Object.fromEntries(
        (rows as { name: string; seq: number }[]).map(({ name, seq }) => [name, seq]),
      );
    },
    close: async () => void raw.close(),
  };
}

async function* rowsOf(raw: Database.Database, { name, columns, key }: Table): AsyncGenerator<Row[]> {
  const list = columns.map((column) => quoted(column.name)).join(", ");
  const order = key.map((column) => quoted(column.name)).join(", ");
  const asked = raw.prepare(`SELECT ${list} FROM ${quoted(name)} ORDER BY ${order}`).safeIntegers();
  let some: Row[] = [];
  for (const found of asked.iterate() as Iterable<Record<string, unknown>>) {
    some.push(Object.fromEntries(columns.map((one) => [one.name, fromSqlite(one.type, found[one.name])])));
    if (some.length < ROWS_AT_ONCE) continue;
    yield some;
    some = [];
  }
  if (some.length) yield some;
}

/**
 * Takes rows into a migrated file that nobody else has open. The triggers that guard ledgers and documents are away meanwhile:
 * they are about what people do, and would refuse or repeat what was done long ago. Those that keep the search stay.
 */
export function sqliteTarget(file: string): RowTarget {
  const raw = new Database(file, { fileMustExist: true });
  raw.pragma("foreign_keys = OFF");
  raw.exec("BEGIN IMMEDIATE");
  const triggers = raw
    .prepare(`SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND sql NOT LIKE '%Search"%'`)
    .all() as { name: string; sql: string }[];
  for (const { name } of triggers) raw.exec(`DROP TRIGGER ${quoted(name)}`);
  for (const { name } of sqliteTables(raw)) raw.exec(`DELETE FROM ${quoted(name)}`);
  const ready = new Map<string, Database.Statement>();
  return {
    tables: async () => sqliteTables(raw),
    put: async (table, rows) => {
      const statement = ready.get(table.name) ?? raw.prepare(insertInto(table));
      ready.set(table.name, statement);
      for (const row of rows)
        statement.run(table.columns.map(({ name, type }) => toSqlite(type, row[name] ?? null)));
    },
    finish: async (lastIds) => {
      raw.exec("DELETE FROM sqlite_sequence");
      const give = raw.prepare(`INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)`);
      for (const [name, seq] of Object.entries(lastIds)) give.run(name, seq);
      for (const { sql } of triggers) raw.exec(sql);
      const loose = raw.pragma("foreign_key_check") as unknown[];
      if (loose.length) throw new Error(`${loose.length} rows refer to rows that are not there.`);
      raw.exec("COMMIT");
    },
    close: async () => void raw.close(),
  };
}

function insertInto({ name, columns }: Table): string {
  const list = columns.map((column) => quoted(column.name)).join(", ");
  return `INSERT INTO ${quoted(name)} (${list}) VALUES (${columns.map(() => "?").join(", ")})`;
}
