import { copyFileSync, existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { Refusal } from "@/lib/domain/refusal";
import { directory, directoryFile } from "./directory";
import { type MigrationTarget, SEARCHED } from "./engine";
import { dataFolder, postgresUrl } from "./folders";
import { applyMigrations, migrations, refuseNewer } from "./migrations";
import { inPostgres } from "./postgres";
import type { DatabaseKind } from "./schemaFiles";
import { shopFile } from "./shop";
import { hasTables, type ShopFault, shutShop, sicknessOf } from "./shopFaults";
import { createSchema } from "./shopSchema";
import { keepWriteAheadLog, shopTemplate } from "./template";

/**
 * Brings the directory and every shop up to date; tells `progress` each step. Safe to repeat. A shop that cannot be
 * opened or brought up to date is shut (shopFaults.ts) and the next is looked at; a directory that cannot be is refused.
 */
export async function migrateAll(progress: (line: string) => void = () => {}): Promise<void> {
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  await oneAtATime(async () => {
    await migrateDirectory(progress);
    const shops = await directory().read.shop.findMany({
      select: { database: true, slug: true },
      orderBy: { id: "asc" },
    });
    for (const { slug, database } of shops) {
      const where = place("shop", database);
      try {
        await demandThere(where);
        await migrateOne("shop", where, progress, `shop ${slug}`);
      } catch (cause) {
        shutShop({ slug, database, place: nameOf(where), ...faultIn(cause) });
      }
    }
  });
}

async function migrateDirectory(progress: (line: string) => void): Promise<void> {
  try {
    await migrateOne("directory", place("directory", "directory"), progress, "directory");
  } catch (cause) {
    const sick = sicknessOf(cause);
    if (!sick || cause instanceof Refusal) throw cause;
    throw new Refusal(
      `The directory database ${directoryFile()} cannot be used. ${sick.reason}`,
      "Put the last good copy back: npm run restore -- <folder of the copy>. Nothing was changed.",
    );
  }
}

/** A shop's file that is not there would be made anew, empty: it must never be. */
async function demandThere(where: MigrationTarget): Promise<void> {
  if (where.provider === "sqlite") {
    if (!existsSync(where.file)) throw Object.assign(new Error("The file is not there."), { code: "ENOENT" });
    return;
  }
  if (!(await inPostgres(where.url, (client) => hasTables(client, where.schema))))
    throw new Refusal("Its schema is missing.");
}

function faultIn(cause: unknown): Pick<ShopFault, "reason" | "lasting"> {
  if (cause instanceof Refusal) return { reason: cause.message, lasting: true };
  const text = cause instanceof Error ? cause.message : String(cause);
  return (
    sicknessOf(cause) ?? { reason: `It could not be brought up to date: ${firstLine(text)}`, lasting: true }
  );
}

const firstLine = (text: string) => (text.trim().split("\n", 1)[0] ?? "").slice(0, 300);

const nameOf = (where: MigrationTarget) =>
  where.provider === "sqlite" ? where.file : `schema ${where.schema}`;

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

/** Makes the database of a new shop, like an empty, migrated template. */
export async function createShopDatabase(database: string): Promise<void> {
  const url = postgresUrl();
  if (url) {
    if ((await appliedInSchema(url, database)).length)
      throw new Error(`Shop database ${database} exists already.`);
    return createSchema(url, database);
  }
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  if (existsSync(shopFile(database))) throw new Error(`Shop database ${database} exists already.`);
  copyFileSync(await shopTemplate(), shopFile(database));
}

/**
 * Makes a shop's database as an earlier version had it: with the migrations up to `level`. Answers what brings it up to date.
 * Refuses a level that this version does not know.
 */
export async function createShopDatabaseAt(database: string, level: string): Promise<() => Promise<void>> {
  const where = place("shop", database);
  const known = migrations("shop", "sqlite").map(({ name }) => name);
  if (!known.includes(level)) refuseNewer("shop", "sqlite", [level]);
  if (level === known.at(-1)) {
    await createShopDatabase(database);
    return async () => undefined;
  }
  if (where.provider === "sqlite") {
    mkdirSync(join(dataFolder(), "shops"), { recursive: true });
    if (existsSync(where.file)) throw new Error(`Shop database ${database} exists already.`);
  } else if ((await appliedInSchema(where.url, database)).length)
    throw new Error(`Shop database ${database} exists already.`);
  await applyMigrations("shop", where, level);
  return () => migrateOne("shop", where, () => {}, database);
}

function place(kind: DatabaseKind, database: string): MigrationTarget {
  const url = postgresUrl();
  if (url) return { provider: "postgresql", url, schema: database };
  return { provider: "sqlite", file: kind === "directory" ? directoryFile() : shopFile(database) };
}

async function migrateOne(
  kind: DatabaseKind,
  where: MigrationTarget,
  progress: (line: string) => void,
  label: string,
): Promise<void> {
  if (where.provider === "sqlite") return migrateFile(kind, where.file, progress, label);
  const applied = await appliedInSchema(where.url, where.schema);
  refuseNewer(kind, where.provider, applied);
  if (applied.length < migrations(kind, where.provider).length) {
    const names = await applyMigrations(kind, where);
    if (names.length) progress(`${label}: ${names.join(", ")}`);
  }
  if (kind === "shop" && !(await indexWords(where.url, where.schema)))
    progress(`${label}: the server refuses the extension pg_trgm, so searching reads every row.`);
}

/** Brings one SQLite file up to date, wherever it lies. */
export async function migrateFile(
  kind: DatabaseKind,
  file: string,
  progress: (line: string) => void,
  label: string,
): Promise<void> {
  const applied = appliedInFile(file);
  refuseNewer(kind, "sqlite", applied);
  if (applied.length < migrations(kind, "sqlite").length) {
    const names = await applyMigrations(kind, { provider: "sqlite", file });
    if (names.length) progress(`${label}: ${names.join(", ")}`);
  }
  keepWriteAheadLog(file);
  if (kind === "shop") gatherTrigrams(file);
}

/** Whether a shop's file has every migration that this version knows. */
export function isCurrent(file: string): boolean {
  return appliedInFile(file).length === migrations("shop", "sqlite").length;
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

const APPLIED = `SELECT migration_name AS name FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`;

export function appliedInFile(file: string): string[] {
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
    if (!(await hasTables(client, schema))) return [];
    await client.query(`SET search_path TO "${schema}"`);
    return (await client.query<{ name: string }>(APPLIED)).rows.map((row) => row.name);
  });
}
