import { notOurs } from "./engine";
import { postgresUrl } from "./folders";
import type { ShopHandle, ShopTx } from "./shop";

/**
 * Runs `run` while the triggers that keep ledgers and documents from changing are away, in the same transaction: nobody else ever
 * sees the shop without them, and a stop puts them back. For erasing what must not be kept, and for nothing else. Triggers
 * that keep the search stay. On SQLite what is erased is overwritten in the file too (secure_delete).
 */
export async function withoutGuards<T>(tx: ShopTx, shop: ShopHandle, run: () => Promise<T>): Promise<T> {
  return postgresUrl() === undefined ? inSqlite(tx, run) : inPostgres(tx, shop.database, run);
}

async function inSqlite<T>(tx: ShopTx, run: () => Promise<T>): Promise<T> {
  const guards = await tx.$queryRawUnsafe<{ name: string; sql: string }[]>(
    `SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND sql NOT LIKE '%Search"%'`,
  );
  await tx.$queryRawUnsafe("PRAGMA secure_delete = ON");
  try {
    for (const { name } of guards) await tx.$executeRawUnsafe(`DROP TRIGGER "${name}"`);
    const done = await run();
    for (const { sql } of guards) await tx.$executeRawUnsafe(sql);
    return done;
  } finally {
    await tx.$queryRawUnsafe("PRAGMA secure_delete = OFF");
  }
}

async function inPostgres<T>(tx: ShopTx, schema: string, run: () => Promise<T>): Promise<T> {
  const guards = await tx.$queryRawUnsafe<{ table: string; name: string }[]>(
    `SELECT c.relname::text AS "table", t.tgname::text AS "name" FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
     JOIN pg_namespace n ON n.oid = c.relnamespace JOIN pg_proc p ON p.oid = t.tgfoid
     WHERE NOT t.tgisinternal AND n.nspname = $1 AND p.proname NOT LIKE 'search\\_keep%' ORDER BY 1, 2`,
    schema,
  );
  const turn = (how: "DISABLE" | "ENABLE") => async () => {
    for (const { table, name } of guards)
      await tx.$executeRawUnsafe(`ALTER TABLE "${schema}"."${table}" ${how} TRIGGER "${name}"`);
  };
  await turn("DISABLE")();
  const done = await run();
  await turn("ENABLE")();
  return done;
}

/** A text that is not to stand anywhere any more, and what stands in its place. */
export interface Replaced {
  readonly from: string;
  readonly to: string;
}

/** So many rows are looked through by one statement: it holds everybody else up while it runs. */
const ROWS = 5_000;

/** Replaces texts in every text and JSON column of the shop but those of `kept` tables; call it within `withoutGuards`. */
export async function replaceEverywhere(
  tx: ShopTx,
  shop: ShopHandle,
  texts: readonly Replaced[],
  kept: ReadonlySet<string>,
): Promise<void> {
  const postgres = postgresUrl() !== undefined;
  const columns = (await textColumns(tx, shop, postgres)).filter(({ table }) => !kept.has(table));
  for (const [table, those] of Map.groupBy(columns, ({ table }) => table)) {
    const named = postgres ? `"${shop.database}"."${table}"` : `"${table}"`;
    const numbered = those.some(({ numbered }) => numbered);
    const [last] = numbered
      ? await tx.$queryRawUnsafe<{ id: number | bigint | null }[]>(`SELECT max("id") AS "id" FROM ${named}`)
      : [];
    for (let from = 0; from <= Number(last?.id ?? 0); from += ROWS)
      for (const text of texts) {
        const { sql, values } = replacing(text, those, postgres);
        const some = numbered ? ` AND "id" > ${from} AND "id" <= ${from + ROWS}` : "";
        await tx.$executeRawUnsafe(`UPDATE ${named} ${sql}${some}`, ...values);
      }
  }
}

function replacing(text: Replaced, columns: readonly TextColumn[], postgres: boolean) {
  const values: string[] = [];
  const ask = (value: string) => {
    values.push(value);
    return postgres ? `$${values.length}::text` : "?";
  };
  const sets = columns.map(({ column, json }) => {
    const [from, to] = [written(text.from, json), written(text.to, json)];
    const cast = postgres ? "::text" : "";
    const made = `replace("${column}"${cast}, ${ask(from)}, ${ask(to)})`;
    return `"${column}" = ${postgres && json ? `${made}::jsonb` : made}`;
  });
  const holds = columns.map(({ column, json }) => {
    const from = ask(written(text.from, json));
    return postgres ? `strpos("${column}"::text, ${from}) > 0` : `instr("${column}", ${from}) > 0`;
  });
  return { sql: `SET ${sets.join(", ")} WHERE (${holds.join(" OR ")})`, values };
}

/** JSON writes quotes, backslashes and line breaks in a way of its own. */
const written = (text: string, json: boolean) => (json ? JSON.stringify(text).slice(1, -1) : text);

interface Found {
  readonly table: string;
  readonly column: string;
  readonly type: string;
}

interface TextColumn {
  readonly table: string;
  readonly column: string;
  readonly json: boolean;
  /** Its table's rows bear a whole number as "id". */
  readonly numbered: boolean;
}

async function textColumns(tx: ShopTx, shop: ShopHandle, postgres: boolean): Promise<TextColumn[]> {
  const strange = new Set(
    notOurs(
      "shop",
      postgres
        ? { provider: "postgresql", url: "", schema: shop.database }
        : { provider: "sqlite", file: "" },
    ).externalTables.map((name) => name.replace(`${shop.database}.`, "")),
  );
  const rows = postgres
    ? await tx.$queryRawUnsafe<Found[]>(
        `SELECT table_name::text AS "table", column_name::text AS "column", data_type::text AS "type"
         FROM information_schema.columns WHERE table_schema = $1
         AND (data_type IN ('text', 'jsonb') OR (column_name = 'id' AND data_type = 'integer'))`,
        shop.database,
      )
    : await tx.$queryRawUnsafe<Found[]>(
        `SELECT m.name AS "table", c.name AS "column", c.type AS "type" FROM sqlite_schema m, pragma_table_info(m.name) c
         WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite\\_%' ESCAPE '\\' 
         AND (upper(c.type) IN ('TEXT', 'JSONB') OR (c.name = 'id' AND upper(c.type) = 'INTEGER'))`,
      );
  const numbered = new Set(
    rows.filter(({ column, type }) => column === "id" && /^int/i.test(type)).map(({ table }) => table),
  );
  return rows
    .filter(({ type }) => !/^int/i.test(type))
    .filter(({ table }) => table !== "_prisma_migrations" && !strange.has(table))
    .map(({ table, column, type }) => ({
      table,
      column,
      json: type.toLowerCase() === "jsonb",
      numbered: numbered.has(table),
    }));
}
