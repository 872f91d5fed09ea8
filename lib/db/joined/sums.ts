import { type Asking, arrayOf, LeftToPrisma, leave, type Words, words } from "./asking";
import { cellOf } from "./row";
import type { Table } from "./tables";
import type { Part } from "./together";
import { condition } from "./where";

const OF = { _sum: "sum", _min: "min", _max: "max", _count: "count" } as const;

/** How many rows there are. */
export function counted(ask: Asking, table: Table, { where, ...others }: Words): Part {
  if (Object.values(others).some((word) => word !== undefined)) throw new LeftToPrisma();
  return { sql: `(SELECT count(*) ${rowsOf(ask, table, where)})`, rows: 1, read: Number };
}

/** Sums, least and greatest values and counts of columns over the rows that are wanted. */
export function summed(ask: Asking, table: Table, { where, ...wanted }: Words): Part {
  const sums = sumsOf(ask, table, wanted);
  return {
    sql: `(SELECT ${arrayOf(
      ask,
      sums.map(({ sql }) => sql),
    )} ${rowsOf(ask, table, where)})`,
    rows: 1,
    read: (answer) => readSums(sums, JSON.parse(answer) as unknown[]),
  };
}

/** Sums of a column, with the word for them. */
interface Sum {
  readonly how: string;
  readonly name: string;
  readonly sql: string;
  read(value: unknown): unknown;
}

export function sumsOf(ask: Asking, table: Table, wanted: Words): Sum[] {
  return Object.entries(wanted).flatMap(([how, of]) =>
    of === undefined
      ? []
      : Object.keys(words(of)).map((name) => ({ how, name, ...sumOf(ask, table, how, name) })),
  );
}

export function readSums(sums: readonly Sum[], values: readonly unknown[]): Record<string, unknown> {
  const found: Record<string, Record<string, unknown>> = {};
  for (const [at, { how, name, read }] of sums.entries())
    found[how] = { ...found[how], [name]: read(values[at]) };
  return found;
}

/** Kept to one name in every statement: nothing is linked with these rows. */
export const ROWS = "t0";

export function rowsOf(ask: Asking, table: Table, where: unknown): string {
  const wanted = condition(ask, table, ROWS, where);
  return `${ask.from(table, ROWS)}${wanted === "" ? "" : ` WHERE ${wanted}`}`;
}

function sumOf(ask: Asking, table: Table, how: string, name: string) {
  const act = OF[how as keyof typeof OF] ?? leave();
  const { column, type } = table.fields.get(name) ?? leave();
  if (act === "sum" && type !== "Int" && type !== "Float") return leave();
  const { sql, read } = cellOf(ask, act === "count" ? "Int" : type, name, `${act}(${ROWS}."${column}")`);
  return { sql, read };
}
