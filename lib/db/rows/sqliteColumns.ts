import type Database from "better-sqlite3";
import { notOurs } from "../engine";
import { byName, type Column, type ColumnType, inOrder, type Table, type Value } from "./rows";

const TYPES: Readonly<Record<string, ColumnType>> = {
  INTEGER: "integer",
  BIGINT: "integer",
  REAL: "real",
  TEXT: "text",
  BOOLEAN: "boolean",
  DATETIME: "instant",
  JSONB: "json",
  BLOB: "bytes",
};

interface ColumnInfo {
  readonly name: string;
  readonly type: string;
  readonly pk: bigint;
}

export const quoted = (name: string) => `"${name.replaceAll('"', '""')}"`;

/** The tables that hold a shop's own rows: neither what searching finds by nor what migrations note. */
export function sqliteTables(raw: Database.Database): Table[] {
  const strange = new Set(
    notOurs("shop", { provider: "sqlite", file: raw.name }).externalTables.concat("_prisma_migrations"),
  );
  const names = raw
    .prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'`)
    .pluck()
    .all() as string[];
  const tables = names
    .filter((name) => !strange.has(name))
    .map((name) => tableOf(raw, name))
    .sort(byName);
  const refers = tables.map(({ name }) => {
    const rows = raw.pragma(`foreign_key_list(${quoted(name)})`) as { table: string }[];
    return [name, new Set(rows.map(({ table }) => table))] as const;
  });
  return inOrder(tables, new Map(refers));
}

function tableOf(raw: Database.Database, name: string): Table {
  const infos = raw.prepare(`SELECT name, type, pk FROM pragma_table_info(?)`).safeIntegers().all(name);
  const columns = (infos as ColumnInfo[]).map((info) => ({ ...info, type: typeOf(name, info) }));
  const key = columns.filter(({ pk }) => pk > 0n).sort((a, b) => Number(a.pk - b.pk));
  const bare = ({ name, type }: Column) => ({ name, type });
  return {
    name,
    columns: columns.map(bare).sort(byName),
    key: (key.length ? key : columns).map(bare),
  };
}

function typeOf(table: string, { name, type }: ColumnInfo): ColumnType {
  const known = TYPES[type.toUpperCase()];
  if (!known) throw new Error(`${table}.${name} is of a type that cannot be moved: ${type}.`);
  return known;
}

/** What SQLite answers for a column (with safeIntegers), as it stands in a row. */
export function fromSqlite(type: ColumnType, value: unknown): Value {
  if (value === null || value === undefined) return null;
  if (type === "boolean") return Boolean(Number(value));
  if (type === "bytes") return Buffer.from(value as Uint8Array).toString("base64");
  if (typeof value === "bigint") {
    if (type === "json") return String(value);
    if (type === "real") return realValue(Number(value));
    const whole = Number(value);
    return Number.isSafeInteger(whole) ? whole : String(value);
  }
  if (typeof value === "number") return type === "json" ? String(value) : realValue(value);
  return String(value);
}

/** JSON knows neither infinity nor a zero below zero. */
export const realValue = (value: number): Value =>
  Number.isFinite(value) && !Object.is(value, -0) ? value : Object.is(value, -0) ? "-0" : String(value);

/** The same the other way: what is bound for a column. */
export function toSqlite(type: ColumnType, value: Value): null | bigint | number | string | Buffer {
  if (value === null) return null;
  if (type === "boolean") return value === true ? 1n : 0n;
  if (type === "integer") return BigInt(value as number | string);
  if (type === "bytes") return Buffer.from(String(value), "base64");
  if (type === "real") return Number(value);
  if (type === "instant" && typeof value === "number") return BigInt(value);
  return String(value);
}
