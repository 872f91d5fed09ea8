import { type Asking, arrayOf, leave, type Words, words } from "./asking";
import { ordered } from "./order";
import { asList, cellOf } from "./row";
import { ROWS, readSums, rowsOf, sumsOf } from "./sums";
import type { Table } from "./tables";
import type { Part } from "./together";

/** Sums of columns for each combination of some others, in the order of those; `rows`: how many there may be without a limit. */
export function summedByGroup(ask: Asking, table: Table, given: Words, rows: number): Part {
  const { by, where, orderBy, take, having, skip, cursor, ...wanted } = given;
  if (!Array.isArray(by) || by.length === 0) return leave();
  if ([having, skip, cursor].some((word) => word !== undefined)) return leave();
  if (take !== undefined && !(Number.isInteger(take) && (take as number) >= 0)) return leave();
  const columns = by.map((name: string) => {
    const { column, type } = table.fields.get(name) ?? leave();
    // PostgreSQL has no equality for these.
    if (type === "Json") return leave();
    const sql = `${ROWS}."${column}"`;
    return { own: sql, ...cellOf(ask, type, name, sql) };
  });
  const sums = sumsOf(ask, table, wanted);
  if (sums.length === 0) return leave();
  const text = [
    `SELECT ${arrayOf(
      ask,
      [...columns, ...sums].map(({ sql }) => sql),
    )} AS "r" ${rowsOf(ask, table, where)}`,
    `GROUP BY ${columns.map((column) => column.own).join(", ")}`,
    orderBy === undefined ? "" : `ORDER BY ${inOrder(ask, table, orderBy)}`,
    take === undefined ? "" : `LIMIT ${take}`,
  ];
  return {
    sql: asList(ask, text.filter((part) => part !== "").join(" ")),
    rows: typeof take === "number" ? take : rows,
    read: (answer) =>
      (JSON.parse(answer) as unknown[][]).map((row) => ({
        ...Object.fromEntries(columns.map(({ name, read }, at) => [name, read(row[at])])),
        ...readSums(sums, row.slice(columns.length)),
      })),
  };
}

/** By columns, and by sums of them: `{ _count: { id: "desc" } }`. */
function inOrder(ask: Asking, table: Table, orderBy: unknown): string {
  return (Array.isArray(orderBy) ? orderBy : [orderBy])
    .flatMap((one) => Object.entries(words(one)))
    .map(([name, way]) => {
      if (!name.startsWith("_")) return ordered(table, ROWS, { [name]: way });
      const [[of, sorted] = leave(), ...others] = Object.entries(words(way));
      if (others.length > 0 || (sorted !== "asc" && sorted !== "desc")) return leave();
      const [sum = leave()] = sumsOf(ask, table, { [name]: { [of]: true } });
      return `${sum.sql} ${sorted === "asc" ? "ASC" : "DESC"}`;
    })
    .join(", ");
}
