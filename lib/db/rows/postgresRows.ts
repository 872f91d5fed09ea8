import type pg from "pg";
import { notOurs } from "../engine";
import { connected } from "../postgres";
import {
  byName,
  type Column,
  type ColumnType,
  inOrder,
  ROWS_AT_ONCE,
  type Row,
  type RowSource,
  type RowTarget,
  type Table,
  type Value,
} from "./rows";
import { quoted, realValue } from "./sqliteColumns";

const TYPES: Readonly<Record<string, ColumnType>> = {
  int4: "integer",
  int8: "integer",
  float8: "real",
  text: "text",
  bool: "boolean",
  timestamp: "instant",
  jsonb: "json",
  bytea: "bytes",
};

/** With the type that a value's text is cast to. */
interface PgColumn extends Column {
  readonly cast: string;
}
type PgTable = Omit<Table, "columns"> & { readonly columns: readonly PgColumn[] };

/** Reads a shop's schema, as it stood when this was asked for. */
export async function postgresSource(url: string, schema: string): Promise<RowSource> {
  const client = await connected(url);
  try {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    await client.query(`SET LOCAL search_path TO ${quoted(schema)}`);
    const { rows } = await client.query<{ level: string | null }>(
      `SELECT max(migration_name) AS level FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`,
    );
    return {
      level: rows[0]?.level ?? "",
      tables: () => postgresTables(client, url, schema),
      rows: (table) => rowsOf(client, table as PgTable),
      lastIds: () => lastIds(client, schema),
      close: () => client.end(),
    };
  } catch (cause) {
    await client.end();
    throw cause;
  }
}

async function postgresTables(client: pg.Client, url: string, schema: string): Promise<PgTable[]> {
  const strange = new Set(
    notOurs("shop", { provider: "postgresql", url, schema }).externalTables.concat(
      `${schema}._prisma_migrations`,
    ),
  );
  const { rows } = await client.query<{
    table: string;
    name: string;
    udt: string;
    cast: string;
    enumerated: boolean;
    at: number | null;
  }>(
    `SELECT c.relname AS "table", a.attname AS "name", t.typname AS "udt", format_type(a.atttypid, NULL) AS "cast",
       t.typtype = 'e' AS "enumerated", array_position(i.indkey::int[], a.attnum::int) AS "at"
     FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
     JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
     JOIN pg_type t ON t.oid = a.atttypid
     LEFT JOIN pg_index i ON i.indrelid = c.oid AND i.indisprimary
     WHERE n.nspname = $1 AND c.relkind = 'r'`,
    [schema],
  );
  const names = [...new Set(rows.map(({ table }) => table))].filter(
    (name) => !strange.has(`${schema}.${name}`),
  );
  const tables = names
    .map((name): PgTable => {
      const columns = rows
        .filter(({ table }) => table === name)
        .map((row) => ({ name: row.name, at: row.at, cast: row.cast, type: typeOf(row) }))
        .sort(byName);
      const key = columns.filter(({ at }) => at !== null).sort((a, b) => Number(a.at) - Number(b.at));
      return { name, columns, key: key.length ? key : columns };
    })
    .sort(byName);
  const refers = new Map<string, Set<string>>();
  for (const { from, to } of await references(client, schema))
    refers.set(from, (refers.get(from) ?? new Set()).add(to));
  return inOrder(tables, refers);
}

function typeOf({
  table,
  name,
  udt,
  enumerated,
}: {
  table: string;
  name: string;
  udt: string;
  enumerated: boolean;
}) {
  const known = enumerated ? "text" : TYPES[udt];
  if (!known) throw new Error(`${table}.${name} is of a type that cannot be moved: ${udt}.`);
  return known;
}

interface Reference {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

async function references(client: pg.Client, schema: string): Promise<Reference[]> {
  const { rows } = await client.query<Reference>(
    `SELECT k.conname AS "name", f.relname AS "from", t.relname AS "to" FROM pg_constraint k
     JOIN pg_class f ON f.oid = k.conrelid JOIN pg_class t ON t.oid = k.confrelid
     JOIN pg_namespace n ON n.oid = f.relnamespace WHERE k.contype = 'f' AND n.nspname = $1 ORDER BY 1`,
    [schema],
  );
  return rows;
}

/**
 * Every value as the server writes it, which says each exactly. Text is ordered by its bytes, as SQLite does; a bare column name
 * would order by the text that is answered.
 */
async function* rowsOf(client: pg.Client, { name, columns, key }: PgTable): AsyncGenerator<Row[]> {
  const list = columns.map((column) => `${quoted(column.name)}::text`).join(", ");
  const order = key.map(({ name, type }) =>
    type === "text" ? `"t".${quoted(name)}::text COLLATE "C"` : `"t".${quoted(name)}`,
  );
  await client.query(
    `DECLARE "reading" NO SCROLL CURSOR FOR SELECT ${list} FROM ${quoted(name)} AS "t" ORDER BY ${order.join(", ")}`,
  );
  try {
    for (;;) {
      const { rows } = await client.query<(string | null)[]>({
        text: `FETCH ${ROWS_AT_ONCE} FROM "reading"`,
        rowMode: "array",
      });
      if (rows.length)
        yield rows.map((row) =>
          Object.fromEntries(
            columns.map(({ name, type }, at) => [name, fromPostgres(type, row[at] ?? null)]),
          ),
        );
      if (rows.length < ROWS_AT_ONCE) return;
    }
  } finally {
    await client.query(`CLOSE "reading"`);
  }
}

function fromPostgres(type: ColumnType, text: string | null): Value {
  if (text === null) return null;
  if (type === "boolean") return text === "true";
  if (type === "real") return realValue(Number(text));
  if (type === "bytes") return Buffer.from(text.slice(2), "hex").toString("base64");
  // As the SQLite adapter writes them.
  if (type === "json") return JSON.stringify(JSON.parse(text));
  if (type === "instant") return new Date(`${text.replace(" ", "T")}Z`).toISOString().replace("Z", "+00:00");
  if (type !== "integer") return text;
  const whole = Number(text);
  return Number.isSafeInteger(whole) ? whole : text;
}

function toPostgres(type: ColumnType, value: Value): string | null {
  if (value === null) return null;
  if (type === "bytes") return `\\x${Buffer.from(String(value), "base64").toString("hex")}`;
  if (type === "instant")
    return new Date(typeof value === "number" ? value : String(value)).toISOString().replace("Z", "");
  return String(value);
}

async function sequences(client: pg.Client, schema: string) {
  const { rows } = await client.query<{ table: string; sequence: string }>(
    `SELECT t.relname AS "table", s.relname AS "sequence" FROM pg_class s
     JOIN pg_namespace n ON n.oid = s.relnamespace
     JOIN pg_depend d ON d.objid = s.oid AND d.classid = 'pg_class'::regclass AND d.refclassid = 'pg_class'::regclass AND d.deptype IN ('a', 'i')
     JOIN pg_class t ON t.oid = d.refobjid WHERE s.relkind = 'S' AND n.nspname = $1 ORDER BY 1`,
    [schema],
  );
  return rows;
}

async function lastIds(client: pg.Client, schema: string): Promise<Record<string, number>> {
  const found: [string, number][] = [];
  for (const { table, sequence } of await sequences(client, schema)) {
    const { rows } = await client.query<{ last: string; called: boolean }>(
      `SELECT last_value::text AS "last", is_called AS "called" FROM ${quoted(sequence)}`,
    );
    if (rows[0]?.called) found.push([table, Number(rows[0].last)]);
  }
  return Object.fromEntries(found);
}

/**
 * Takes rows into a migrated schema, in one transaction. Triggers that guard ledgers and documents are off meanwhile, as in
 * sqliteTarget; what refers to what is checked at the end, so that the order within a circle is no matter. No more is needed
 * than the schema's owner may do.
 */
export async function postgresTarget(url: string, schema: string): Promise<RowTarget> {
  const client = await connected(url);
  try {
    await client.query("BEGIN");
    await client.query(`SET LOCAL search_path TO ${quoted(schema)}`);
    const tables = await postgresTables(client, url, schema);
    const known = new Map(tables.map((table) => [table.name, table]));
    const triggers = await guards(client, schema);
    const kept = await references(client, schema);
    for (const { table, name } of triggers)
      await client.query(`ALTER TABLE ${quoted(table)} DISABLE TRIGGER ${quoted(name)}`);
    for (const { from, name } of kept)
      await client.query(
        `ALTER TABLE ${quoted(from)} ALTER CONSTRAINT ${quoted(name)} DEFERRABLE INITIALLY DEFERRED`,
      );
    for (const { name } of [...tables].reverse()) await client.query(`DELETE FROM ${quoted(name)}`);
    return {
      tables: async () => tables,
      put: (table, rows) => insert(client, known.get(table.name) as PgTable, rows),
      finish: async (lastIds) => {
        for (const { table, sequence } of await sequences(client, schema)) {
          const last = lastIds[table] ?? 0;
          await client.query("SELECT setval($1::regclass, $2, $3)", [quoted(sequence), last || 1, last > 0]);
        }
        await client.query("SET CONSTRAINTS ALL IMMEDIATE");
        for (const { from, name } of kept)
          await client.query(`ALTER TABLE ${quoted(from)} ALTER CONSTRAINT ${quoted(name)} NOT DEFERRABLE`);
        for (const { table, name } of triggers)
          await client.query(`ALTER TABLE ${quoted(table)} ENABLE TRIGGER ${quoted(name)}`);
        await client.query("COMMIT");
      },
      close: () => client.end(),
    };
  } catch (cause) {
    await client.end();
    throw cause;
  }
}

async function guards(client: pg.Client, schema: string): Promise<{ table: string; name: string }[]> {
  const { rows } = await client.query<{ table: string; name: string }>(
    `SELECT c.relname AS "table", t.tgname AS "name" FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
     JOIN pg_namespace n ON n.oid = c.relnamespace JOIN pg_proc p ON p.oid = t.tgfoid
     WHERE NOT t.tgisinternal AND t.tgenabled = 'O' AND n.nspname = $1 AND p.proname NOT LIKE 'search\\_keep%' ORDER BY 1, 2`,
    [schema],
  );
  return rows;
}

async function insert(client: pg.Client, { name, columns }: PgTable, rows: readonly Row[]): Promise<void> {
  const list = columns.map((column) => quoted(column.name)).join(", ");
  const cast = columns.map((column, at) => `"v${at}"::${column.cast}`).join(", ");
  const taken = columns.map((_, at) => `$${at + 1}::text[]`).join(", ");
  const named = columns.map((_, at) => `"v${at}"`).join(", ");
  await client.query(
    `INSERT INTO ${quoted(name)} (${list}) SELECT ${cast} FROM unnest(${taken}) AS "given" (${named})`,
    columns.map((column) => rows.map((row) => toPostgres(column.type, row[column.name] ?? null))),
  );
}
