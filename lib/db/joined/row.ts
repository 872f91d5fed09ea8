import { type Asking, arrayOf, column, leave, type Words, words } from "./asking";
import { ordered } from "./order";
import type { FieldType, Relation, Table } from "./tables";
import { condition } from "./where";

/** So many values does PostgreSQL take in one function, and SQLite as its library is built. */
const WIDEST = { postgresql: 100, sqlite: 1_000 };

export interface Row {
  /** SQL expressions: the values that a row is read from, in order. */
  readonly values: readonly string[];
  /** Joins that bring the rows it is linked with, each at most one; empty where the values ask for them themselves. */
  readonly joins: string;
  /** What the client would have answered, from an array in which the row's values begin at `from`. */
  read(values: readonly unknown[], from: number): unknown;
}

interface Cell extends Row {
  readonly name: string;
  /** Its one value is what is answered. */
  readonly asItIs: boolean;
}

/** What is selected of a table's row, and of the rows it is linked with; `also` stands behind them, unread. */
export function rowOf(ask: Asking, table: Table, alias: string, args: Words, also?: string): Row {
  const cells = selected(table, args).map(([name, of]): Cell => {
    const field = table.fields.get(name);
    if (field) return single(cellOf(ask, field.type, name, `${alias}."${field.column}"`));
    return linked(ask, table, alias, table.relations.get(name) ?? leave(), name, of);
  });
  const values = cells.flatMap((cell) => cell.values);
  const at: number[] = [];
  let width = 0;
  for (const cell of cells) {
    at.push(width);
    width += cell.values.length;
  }
  if (also !== undefined) values.push(also);
  if (values.length > WIDEST[ask.schema === undefined ? "sqlite" : "postgresql"]) return leave();
  return {
    values,
    joins: cells.map((cell) => cell.joins).join(""),
    // Runs for each cell of each row of each list: an iterator would take as long as the reading itself.
    read: (row, from) => {
      const made: Record<string, unknown> = {};
      for (let index = 0; index < cells.length; index++) {
        const cell = cells[index] as Cell;
        const place = from + (at[index] as number);
        made[cell.name] = cell.asItIs ? row[place] : cell.read(row, place);
      }
      return made;
    },
  };
}

const single = ({ name, sql, read }: Column): Cell => ({
  name,
  values: [sql],
  joins: "",
  asItIs: read === asIs,
  read: (row, at) => read(row[at]),
});

function selected(table: Table, { select, include, omit }: Words): [name: string, of: Words][] {
  if (omit !== undefined || (select !== undefined && include !== undefined)) return leave();
  const found: [string, Words][] = [];
  if (select === undefined) for (const name of table.fields.keys()) found.push([name, ALL]);
  for (const [name, of] of Object.entries(words(select ?? include ?? ALL)))
    if (of !== undefined && of !== false) found.push([name, of === true ? ALL : words(of)]);
  return found;
}

const ALL: Words = {};
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

interface Column {
  readonly name: string;
  readonly sql: string;
  read(value: unknown): unknown;
}

/** An SQL expression of a field's type as it stands in a JSON array, and what it is read as. */
export function cellOf(ask: Asking, type: FieldType, name: string, sql: string): Column {
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
    const read = (rows: unknown) =>
      rows === null ? [] : (rows as unknown[][]).map((values) => row.read(values, 0));
    // The value of a subquery counts as text in SQLite, also where it was made as JSON, and would be a text in the array around it.
    return single({ name, sql: ask.schema === undefined ? `json(${sql})` : sql, read });
  }
  if (Object.keys(args).some((word) => word !== "select" && word !== "include")) return leave();
  if (ask.schema === undefined) return joined(ask, other, as, relation, name, args, link(as));
  const row = rowOf(ask, other, as, args);
  return single({
    name,
    sql: `(SELECT ${arrayOf(ask, row.values)} ${ask.from(other, as)} WHERE ${link(as)})`,
    read: (value) => (value === null ? null : row.read(value as unknown[], 0)),
  });
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
  const last = row.values.length - 1;
  return {
    name,
    asItIs: false,
    values: row.values,
    joins: ` LEFT JOIN "${other.name}" AS ${as} ON ${link}${row.joins}`,
    read: (values, from) =>
      key !== undefined && values[from + last] === null ? null : row.read(values, from),
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
    return asList(ask, rowsIn(ask, table, alias, `${arrayOf(ask, row.values)} AS "r"`, args, link));
  // What is joined is joined to the rows that are wanted, and to no others that their order has to look at.
  const wanted = rowsIn(ask, table, ask.alias(), "*", args, link);
  return `(SELECT ${textOf(arrayOf(ask, row.values))} FROM (${wanted}) AS "${alias}"${row.joins})`;
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
