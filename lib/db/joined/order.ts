import { column, leave, words } from "./asking";
import type { Table } from "./tables";

/** An `orderBy` of Prisma's by the table's own columns, as SQL; empty where none is asked for. */
export function ordered(table: Table, alias: string, orderBy: unknown): string {
  if (orderBy === undefined) return "";
  return (Array.isArray(orderBy) ? orderBy : [orderBy])
    .flatMap((one) => Object.entries(words(one)))
    .map(([name, way]) => `${column(table, alias, name)} ${wayOf(way)}`)
    .join(", ");
}

function wayOf(way: unknown): string {
  if (way === "asc") return "ASC";
  if (way === "desc") return "DESC";
  const { sort, nulls, ...rest } = words(way);
  if (Object.keys(rest).length > 0 || (nulls !== "first" && nulls !== "last")) return leave();
  return `${wayOf(sort)} NULLS ${nulls === "last" ? "LAST" : "FIRST"}`;
}
