import { type Asking, column, leave, type Words, words } from "./asking";
import { ordered } from "./order";
import type { FieldType, Relation, Table } from "./tables";
import { condition } from "./where";

/** PostgreSQL takes so many values in one function, SQLite a few more. */
const WIDEST = 100;

export interface Row {
  /** An SQL expression: the row as a JSON array. */
  readonly sql: string;
  /** Joins that bring the rows it is linked with, each at most one; empty where the expression asks for them itself. */
  readonly joins: string;
  /** What the client would have answered, from that array. */
  read(row: readonly unknown[]): unknown;
}

interface Cell {
  readonly name: string;
  readonly sql: string;
  readonly joins?: string;
  read(value: unknown): unknown;
}

/** What is selected of a table's row, and of the rows it is linked with, in one expression; `also` stands behind them, unread. */
export function rowOf(ask: Asking, table: Table, alias: string, args: Words, also?: string): Row {
  const cells = selected(table, args).map(([name, of]): Cell => {
    const field = table.fields.get(name);
    if (field) return cellOf(ask, field.type, name, `${alias}."${field.column}"`);
    return linked(ask, table, alias, table.relations.get(name) ?? leave(), name, of);
  });
  if (cells.length > WIDEST) return leave();
  const array = ask.schema === undefined ? "json_array" : "json_build_array";
  const columns = cells.map((cell) => cell.sql);
  return {
    sql: `${array}(${(also === undefined ? columns : [...columns, also]).join(", ")})`,
    joins: cells.map((cell) => cell.joins ?? "").join(""),
    read: (row) => {
      const made: Record<string, unknown> = {};
      let at = 0;
      for (const cell of cells) made[cell.name] = cell.read(row[at++]);
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
  const from = column(table, alias, relation.from);
  const link = (its: string) => `${column(other, its, relation.to)} = ${from}`;
  if (relation.list) {
    const row = rowOf(ask, other, as, args);
    const sql = listOf(ask, other, as, row, args, link);
    const read = (rows: unknown) => (rows === null ? [] : (rows as unknown[][]).map(row.read));
    // The value of a subquery counts as text in SQLite, also where it was made as JSON, and would be a text in the array around it.
    return { name, sql: ask.schema === undefined ? `json(${sql})` : sql, read };
  }
  if (Object.keys(args).some((word) => word !== "select" && word !== "include")) return leave();
  if (ask.schema === undefined) return joined(ask, other, as, relation, name, args, link(as));
  const row = rowOf(ask, other, as, args);
  return {
    name,
    sql: `(SELECT ${row.sql} ${ask.from(other, as)} WHERE ${link(as)})`,
    read: (value) => (value === null ? null : row.read(value as unknown[])),
  };
}

/** The one row that another is linked with, joined to it: SQLite asks a join in half the time of a subquery for each row. */
function joined(
  ask: Asking,
  other: Table,
  as: string,
  relation: Relation,
  name: string,
  args: Words,
  link: string,
): Cell {
  // Of a row that is missing its key is missing as well, which no row that is there lacks.
  const key = relation.optional ? column(other, as, relation.to) : undefined;
  const row = rowOf(ask, other, as, args, key);
  return {
    name,
    sql: row.sql,
    joins: ` LEFT JOIN "${other.name}" AS ${as} ON ${link}${row.joins}`,
    read: (value) =>
      key !== undefined && (value as unknown[]).at(-1) === null ? null : row.read(value as unknown[]),
  };
}

/** Columns that are selected and of which each combination is answered once; no word of Prisma's. */
export const EACH_ONCE = "each once";
const KNOWN = new Set(["select", "include", "where", "orderBy", "take", EACH_ONCE]);

/** Rows of a table as a JSON array of arrays, in order, at most as many as are asked for; null or none of them where there are none. */
export function listOf(
  ask: Asking,
  table: Table,
  alias: string,
  row: Row,
  args: Words,
  link: (alias: string) => string = () => "",
): string {
  const { take } = args;
  if (Object.entries(args).some(([word, value]) => value !== undefined && !KNOWN.has(word))) return leave();
  if (take !== undefined && !(Number.isInteger(take) && (take as number) >= 0)) return leave();
  if (ask.schema !== undefined)
    return asList(ask, rowsIn(ask, table, alias, `${row.sql} AS "r"`, args, link));
  // What is joined is joined to the rows that are wanted, and to no others that their order has to look at.
  const wanted = rowsIn(ask, table, ask.alias(), "*", args, link);
  return `(SELECT ${textOf(row.sql)} FROM (${wanted}) AS "${alias}"${row.joins})`;
}

/** What is asked of the rows of a table that are wanted, in their order. */
function rowsIn(
  ask: Asking,
  table: Table,
  alias: string,
  what: string,
  { where, orderBy, take, [EACH_ONCE]: once = [] }: Words,
  link: (alias: string) => string,
): string {
  const wanted = [link(alias), condition(ask, table, alias, where)].filter((text) => text !== "");
  const groups = (once as string[]).map((name) => column(table, alias, name));
  const order = ordered(table, alias, orderBy);
  return [
    `SELECT ${what} ${ask.from(table, alias)}`,
    wanted.length === 0 ? "" : `WHERE ${wanted.join(" AND ")}`,
    groups.length === 0 ? "" : `GROUP BY ${groups.join(", ")}`,
    order === "" ? "" : `ORDER BY ${order}`,
    take === undefined ? "" : `LIMIT ${take}`,
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** Rows with a JSON array `r` each, as one JSON array; null or none of them where there are none. */
export function asList(ask: Asking, rows: string): string {
  if (ask.schema === undefined) return `(SELECT ${textOf(`"r"`)} FROM (${rows}))`;
  return `(SELECT coalesce(json_agg("r"), '[]'::json) FROM (${rows}) AS ${ask.alias()})`;
}

/** Arrays put together as text: SQLite's JSON functions would read each of them anew. */
const textOf = (array: string) => `'[' || group_concat(${array}, ',') || ']'`;
