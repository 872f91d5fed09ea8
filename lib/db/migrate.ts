import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { directory, directoryFile } from "./directory";
import { type MigrationPlace, SEARCHED } from "./engine";
import { applyMigrations, migrations, refuseNewer } from "./migrations";
import { dataFolder, postgresUrl } from "./places";
import { inPostgres } from "./postgres";
import { type DatabaseKind, schemaDigest } from "./schemaFiles";
import { shopFile } from "./shop";

/** Brings the directory and every shop up to date; tells `progress` each step. Safe to repeat. */
export async function migrateAll(progress: (line: string) => void = () => {}): Promise<void> {
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  await oneAtATime(async () => {
    await migrateOne("directory", place("directory", "directory"), progress, "directory");
    const shops = await directory().read.shop.findMany({
      select: { database: true, slug: true },
      orderBy: { id: "asc" },
    });
    for (const shop of shops)
      await migrateOne("shop", place("shop", shop.database), progress, `shop ${shop.slug}`);
  });
}

/** Several app processes may start against one PostgreSQL server: the first migrates, the others wait for it. */
async function oneAtATime(run: () => Promise<void>): Promise<void> {
  const url = postgresUrl();
  if (!url) return run();
  // An advisory lock ends with its session; the number only has to be one nobody else takes.
  await inPostgres(url, async (client) => {
    await client.query("SELECT pg_advisory_lock(hashtext('throttlewright migrations'))");
    await run();
  });
}

/** Makes the database of a new shop. On SQLite it is a copy of an empty, migrated template. */
export async function createShopDatabase(database: string): Promise<void> {
  const url = postgresUrl();
  if (url) {
    if ((await appliedInSchema(url, database)).length)
      throw new Error(`Shop database ${database} exists already.`);
    await applyMigrations("shop", place("shop", database));
    return;
  }
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  if (existsSync(shopFile(database))) throw new Error(`Shop database ${database} exists already.`);
  copyFileSync(await template(), shopFile(database));
}

async function template(): Promise<string> {
  const digest = `${schemaDigest()}-${migrations("shop", "sqlite").length}`;
  const file = join(dataFolder(), `template-${digest}.sqlite`);
  if (existsSync(file)) return file;
  const making = `${file}.${process.pid}`;
  for (const old of readdirSync(dataFolder()))
    if (/^template-/.test(old)) rmSync(join(dataFolder(), old), { force: true });
  await applyMigrations("shop", { provider: "sqlite", file: making });
  keepWriteAheadLog(making);
  renameSync(making, file);
  return file;
}

function place(kind: DatabaseKind, database: string): MigrationPlace {
  const url = postgresUrl();
  if (url) return { provider: "postgresql", url, schema: database };
  return { provider: "sqlite", file: kind === "directory" ? directoryFile() : shopFile(database) };
}

async function migrateOne(
  kind: DatabaseKind,
  where: MigrationPlace,
  progress: (line: string) => void,
  label: string,
): Promise<void> {
  const applied =
    where.provider === "sqlite" ? appliedInFile(where.file) : await appliedInSchema(where.url, where.schema);
  refuseNewer(kind, where.provider, applied);
  if (applied.length < migrations(kind, where.provider).length) {
    const names = await applyMigrations(kind, where);
    if (where.provider === "sqlite") keepWriteAheadLog(where.file);
    if (names.length) progress(`${label}: ${names.join(", ")}`);
  }
  if (kind !== "shop") return;
  if (where.provider === "sqlite") gatherTrigrams(where.file);
  else if (!(await indexWords(where.url, where.schema)))
    progress(`${label}: the server refuses the extension pg_trgm, so searching reads every row.`);
}

/**
 * Every write adds a piece to the trigrams, and FTS5 merges them only now and then: in one piece they were measured to be
 * asked three times as fast. Nothing to do costs nothing. Source: SQLite's FTS5, the command 'optimize'.
 */
export function gatherTrigrams(file: string): void {
  const raw = new Database(file);
  try {
    for (const table of SEARCHED.map((noun) => `"${noun}Search"`))
      raw.exec(`INSERT INTO ${table} (${table}) VALUES ('optimize')`);
  } finally {
    raw.close();
  }
}

/** Makes the indexes that searching uses, as soon as the server has the extension for them; false where it has not. */
export async function indexWords(url: string, schema: string): Promise<boolean> {
  return inPostgres(url, async (client) => {
    await client.query(`SET search_path TO "${schema}"`);
    const { rows } = await client.query<{ made: boolean }>(`SELECT "search_index"() AS made`);
    return rows[0]?.made === true;
  });
}

/** WAL is a property of the file: set once, so that a read-only connection may be the first to open it. */
function keepWriteAheadLog(file: string): void {
  const raw = new Database(file);
  raw.pragma("journal_mode = WAL");
  raw.close();
}

const APPLIED = `SELECT migration_name AS name FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`;

function appliedInFile(file: string): string[] {
  if (!existsSync(file)) return [];
  const raw = new Database(file, { readonly: true });
  try {
    const known = raw.prepare(`SELECT 1 FROM sqlite_master WHERE name = '_prisma_migrations'`).get();
    return known ? (raw.prepare(APPLIED).all() as { name: string }[]).map((row) => row.name) : [];
  } finally {
    raw.close();
  }
}

async function appliedInSchema(url: string, schema: string): Promise<string[]> {
  return inPostgres(url, async (client) => {
    await client.query(`CREATE SCHEMA IF NOT EXISTS "${schema}"`);
    const known = await client.query("SELECT to_regclass($1) AS table", [`"${schema}"."_prisma_migrations"`]);
    if (!known.rows[0]?.table) return [];
    await client.query(`SET search_path TO "${schema}"`);
    return (await client.query<{ name: string }>(APPLIED)).rows.map((row) => row.name);
  });
}
