import { type Asking, column, leave, type Words, words } from "./asking";
import { ordered } from "./order";
import type { FieldType, Relation, Table } from "./tables";
import { condition } from "./where";

/** PostgreSQL takes so many values in one function, SQLite a few more. */
const WIDEST = 100;

export interface Row {
  /** An SQL expression: the row as a JSON array. */
  readonly sql: string;
  /** What the client would have answered, from that array. */
  read(row: readonly unknown[]): unknown;
}

interface Cell {
  readonly name: string;
  readonly sql: string;
  read(value: unknown): unknown;
}

/** What is selected of a table's row, and of the rows it is linked with, in one expression. */
export function rowOf(ask: Asking, table: Table, alias: string, args: Words): Row {
  const cells = selected(table, args).map(([name, of]): Cell => {
    const field = table.fields.get(name);
    if (field) return cellOf(ask, field.type, name, `${alias}."${field.column}"`);
    return linked(ask, table, alias, table.relations.get(name) ?? leave(), name, of);
  });
  if (cells.length > WIDEST) return leave();
  const array = ask.schema === undefined ? "json_array" : "json_build_array";
  return {
    sql: `${array}(${cells.map((cell) => cell.sql).join(", ")})`,
    read: (row) => {
      const made: Record<string, unknown> = {};
      for (const [at, cell] of cells.entries()) made[cell.name] = cell.read(row[at]);
      return made;
    },
  };
}

function selected(table: Table, args: Words): [name: string, of: Words][] {
  const { select, include } = args;
  if (args.omit !== undefined || (select !== undefined && include !== undefined)) return leave();
  const wanted = Object.entries(select === undefined ? {} : words(select)).concat(
    Object.entries(include === undefined ? {} : words(include)),
  );
  const scalars: [string, unknown][] =
    select === undefined ? [...table.fields.keys()].map((name) => [name, true]) : [];
  return [...scalars, ...wanted].flatMap(([name, of]): [string, Words][] => {
    if (of === undefined || of === false) return [];
    return [[name, of === true ? {} : words(of)]];
  });
}

const asIs = (value: unknown) => value;
/** What SQLite keeps as text where PostgreSQL has a type of its own. */
const read = {
  instant: (value: unknown) => (value === null ? null : new Date(value as string | number)),
  // `timestamp` of PostgreSQL is UTC here, and written without its zone.
  instantOfPostgres: (value: unknown) => (value === null ? null : new Date(`${value}Z`)),
  json: (value: unknown) => (typeof value === "string" ? JSON.parse(value) : value),
  truth: (value: unknown) => (value === null ? null : value === 1),
  float: (value: unknown) => (typeof value === "string" && value !== "NULL" ? Number(value) : null),
};

/** An SQL expression of a field's type as it stands in a JSON array, and what it is read as. */
export function cellOf(ask: Asking, type: FieldType, name: string, sql: string): Cell {
  if (ask.schema !== undefined) {
    return { name, sql, read: type === "DateTime" ? read.instantOfPostgres : asIs };
  }
  if (type === "DateTime") return { name, sql, read: read.instant };
  if (type === "Json") return { name, sql, read: read.json };
  if (type === "Boolean") return { name, sql, read: read.truth };
  // SQLite's JSON has 15 digits of a number, its quote() all of them.
  if (type === "Float") return { name, sql: `quote(${sql})`, read: read.float };
  return { name, sql, read: asIs };
}

function linked(
  ask: Asking,
  table: Table,
  alias: string,
  relation: Relation,
  name: string,
  args: Words,
): Cell {
  const other = ask.table(relation.table);
  const as = ask.alias();
  const row = rowOf(ask, other, as, args);
  const link = `${column(other, as, relation.to)} = ${column(table, alias, relation.from)}`;
  if (relation.list) {
    const { sql } = listOf(ask, other, as, row, args, link);
    // As text it would be a text in the array around it.
    const json = ask.schema === undefined ? `json(${sql})` : sql;
    return { name, sql: json, read: (rows) => (rows as unknown[][]).map(row.read) };
  }
  if (Object.keys(args).some((word) => word !== "select" && word !== "include")) return leave();
  const sql = `(SELECT ${row.sql} ${ask.from(other, as)} WHERE ${link})`;
  return {
    name,
    // The value of a subquery counts as text in SQLite, also where it was made as JSON.
    sql: ask.schema === undefined ? `json(${sql})` : sql,
    read: (value) => (value === null ? null : row.read(value as unknown[])),
  };
}

/** Columns that are selected and of which each combination is answered once; no word of Prisma's. */
export const EACH_ONCE = "each once";
const KNOWN = new Set(["select", "include", "where", "orderBy", "take", EACH_ONCE]);

/** Rows of a table as a JSON array of arrays, in order, at most as many as are asked for. */
export function listOf(
  ask: Asking,
  table: Table,
  alias: string,
  row: Row,
  args: Words,
  link = "",
): { sql: string } {
  const { where, orderBy, take } = args;
  if (Object.entries(args).some(([word, value]) => value !== undefined && !KNOWN.has(word))) return leave();
  if (take !== undefined && !(Number.isInteger(take) && (take as number) >= 0)) return leave();
  const wanted = [link, condition(ask, table, alias, where)].filter((text) => text !== "").join(" AND ");
  const order = ordered(table, alias, orderBy);
  const once = ((args[EACH_ONCE] ?? []) as string[]).map((name) => column(table, alias, name)).join(", ");
  const rows = [
    `SELECT ${row.sql} AS "r" ${ask.from(table, alias)}`,
    wanted === "" ? "" : `WHERE ${wanted}`,
    once === "" ? "" : `GROUP BY ${once}`,
    order === "" ? "" : `ORDER BY ${order}`,
    take === undefined ? "" : `LIMIT ${take}`,
  ]
    .filter((text) => text !== "")
    .join(" ");
  return { sql: asList(ask, rows) };
}

/** Rows with a JSON array each, as one JSON array. */
export function asList(ask: Asking, rows: string): string {
  // The arrays of rows are put together as text: SQLite's JSON functions would read each of them anew.
  if (ask.schema === undefined)
    return `(SELECT '[' || coalesce(group_concat("r", ','), '') || ']' FROM (${rows}))`;
  return `(SELECT coalesce(json_agg("r"), '[]'::json) FROM (${rows}) AS ${ask.alias()})`;
}
