import { z } from "zod";
import { createShopDatabaseAt } from "@/lib/db/migrate";
import { digestsOf, type TableDigest } from "@/lib/db/rows/digest";
import { postgresSource, postgresTarget } from "@/lib/db/rows/postgresRows";
import type { Row, RowSource, RowTarget, Table } from "@/lib/db/rows/rows";
import { ROWS_AT_ONCE } from "@/lib/db/rows/rows";
import { sqliteSource, sqliteTarget } from "@/lib/db/rows/sqliteRows";
import { type DatabasePlace, directUrl } from "@/lib/db/servers";
import { shopFile } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { rowsName } from "./archive";
import { linesOf } from "./lines";
import type { OpenArchive } from "./zipIn";

const NOTHING = "Nothing was opened.";

/** The rows of one shop, wherever they come from. */
interface RowsToTake {
  readonly level: string;
  readonly lastIds: Readonly<Record<string, number>>;
  readonly tables: Readonly<Record<string, TableDigest>>;
  rows(table: Table): AsyncGenerator<Row[], void, undefined>;
}

const targetOf = ({ database, server }: DatabasePlace): Promise<RowTarget> => {
  const url = directUrl(server);
  return url ? postgresTarget(url, database) : Promise.resolve(sqliteTarget(shopFile(database)));
};

export const sourceOf = ({ database, server }: DatabasePlace): Promise<RowSource> => {
  const url = directUrl(server);
  return url ? postgresSource(url, database) : Promise.resolve(sqliteSource(shopFile(database)));
};

/**
 * Makes a new shop's database with exactly these rows: it is made at their level, filled, compared table by table with what
 * they were, and only then brought up to date. Answers how many rows it has.
 */
export async function fillFrom(given: RowsToTake, place: DatabasePlace): Promise<number> {
  const upToDate = await createShopDatabaseAt(place, given.level);
  const target = await targetOf(place);
  try {
    const tables = await target.tables();
    demandSameTables(tables, given);
    for (const table of tables) for await (const rows of given.rows(table)) await target.put(table, rows);
    await target.finish(given.lastIds);
  } finally {
    await target.close();
  }
  const source = await sourceOf(place);
  try {
    const now = await digestsOf(source);
    const other = Object.keys(now).filter((name) => now[name]?.digest !== given.tables[name]?.digest);
    if (other.length) throw new Refusal(`These tables are not what they were: ${other.join(", ")}.`, NOTHING);
  } finally {
    await source.close();
  }
  await upToDate();
  return Object.values(given.tables).reduce((sum, { rows }) => sum + rows, 0);
}

function demandSameTables(tables: readonly Table[], { tables: given }: RowsToTake): void {
  const ours = new Set(tables.map(({ name }) => name));
  const strange = Object.keys(given).filter((name) => !ours.has(name));
  const missing = [...ours].filter((name) => !given[name]);
  if (strange.length || missing.length)
    throw new Refusal(
      `Its tables are not those of its version: ${[...strange, ...missing].join(", ")}.`,
      NOTHING,
    );
}

const RowSchema = z.record(z.string(), z.union([z.null(), z.boolean(), z.number(), z.string()]));

/** Fills a new database from an archive. */
export function fillDatabase(archive: OpenArchive, place: DatabasePlace): Promise<number> {
  const { level, lastIds, tables } = archive.manifest;
  return fillFrom({ level, lastIds, tables, rows: (table) => rowsIn(archive, table) }, place);
}

async function* rowsIn(archive: OpenArchive, table: Table): AsyncGenerator<Row[], void, undefined> {
  const name = rowsName(table.name);
  const columns = new Set(table.columns.map((column) => column.name));
  let some: Row[] = [];
  let line = 0;
  for await (const text of linesOf(archive.read(name))) {
    line += 1;
    const row = rowOf(text, columns, `${name}, line ${line}`);
    some.push(row);
    if (some.length < ROWS_AT_ONCE) continue;
    yield some;
    some = [];
  }
  if (some.length) yield some;
}

function rowOf(text: string, columns: ReadonlySet<string>, where: string): Row {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    throw new Refusal(`${where}: this is no JSON.`, NOTHING);
  }
  const parsed = RowSchema.safeParse(read);
  const names = parsed.success ? Object.keys(parsed.data) : [];
  if (!parsed.success || names.length !== columns.size || names.some((name) => !columns.has(name)))
    throw new Refusal(`${where}: these are not the columns of its table.`, NOTHING);
  return parsed.data;
}
