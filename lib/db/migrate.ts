import { copyFileSync, existsSync, mkdirSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import { appliedInSchema, stateOfFile } from "./applied";
import { noteChange } from "./changes";
import { directory, directoryFile } from "./directory";
import type { MigrationTarget } from "./engine";
import { waitForLock } from "./folderLock";
import { dataFolder, postgresUrl } from "./folders";
import { newestLevel, noteLevel } from "./levels";
import { applyMigrations, migrationNames, refuseNewer } from "./migrations";
import { inPostgres } from "./postgres";
import type { DatabaseKind } from "./schemaFiles";
import { serverFault, serverUnknown } from "./serverFaults";
import { type DatabasePlace, directUrl, type ShopPlace, schemaSaid } from "./servers";
import { shopFile, shutFor } from "./shop";
import { hasTables, type ShopFault, shutShop, sicknessOf } from "./shopFaults";
import { createSchema } from "./shopSchema";
import { keepWriteAheadLog, shopTemplate } from "./template";

/** Longer than any shop takes to be brought up to date. */
const LONGEST_MS = 120_000;

/**
 * Brings the directory and every shop up to date; tells `progress` each step. Safe to repeat. A shop that cannot be
 * opened or brought up to date is shut (shopFaults.ts) and the next is looked at; a directory that cannot be is refused.
 */
export async function migrateAll(progress: (line: string) => void = () => {}): Promise<void> {
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  await oneAtATime(async () => {
    await migrateDirectory(progress);
    const shops = await directory().read.shop.findMany({
      select: { database: true, slug: true, server: true },
      orderBy: { id: "asc" },
    });
    for (const shop of shops) await migrateOrShut(shop, progress);
  });
}

async function migrateOrShut(shop: ShopPlace, progress: (line: string) => void): Promise<void> {
  const { slug, database, server } = shop;
  const away = await serverFault(server);
  if (away) return shutFor(shop, away);
  try {
    const names = await migrateShop(targetOf(shop), slug, progress);
    await noteLevel(database, names.length > 0);
  } catch (cause) {
    const place = postgresUrl() ? schemaSaid(shop) : shopFile(database);
    shutShop({ slug, database, place, ...((await serverFault(server, true)) ?? faultIn(cause)) });
  }
}

/** What the start does: the directory is brought up to date, a shop when it is first opened. Answers how many shops wait for that. */
export async function checkShops(progress: (line: string) => void = () => {}): Promise<number> {
  mkdirSync(join(dataFolder(), "shops"), { recursive: true });
  await oneAtATime(() => migrateDirectory(progress));
  if (postgresUrl()) await lookAtServers();
  else await lookAtFiles();
  return directory().read.shop.count({
    where: { closedAt: null, level: { not: newestLevel() } },
  });
}

/**
 * Shuts shops whose file is missing. One whose log of writes is there was open when the process was killed: the rounds are to look at
 * it, since they may not have been told of its last write. Source: SQLite removes the log as the last connection is closed.
 */
async function lookAtFiles(): Promise<void> {
  const shops = await directory().read.shop.findMany({
    where: { closedAt: null },
    select: { database: true, slug: true, server: true },
    orderBy: { id: "asc" },
  });
  const there = new Set(readdirSync(join(dataFolder(), "shops")));
  for (const shop of shops) {
    const { slug, database, server } = shop;
    if (server !== "") shutFor(shop, serverUnknown(server));
    else if (!there.has(`${database}.sqlite`))
      shutShop({ slug, database, place: shopFile(database), ...faultIn(notThere()) });
    else if (there.has(`${database}.sqlite-wal`)) noteChange(database, new Date());
  }
}

/** Shuts the shops of servers that the settings do not name, or that do not answer: the others are not kept waiting. */
async function lookAtServers(): Promise<void> {
  const { read } = directory();
  const servers = await read.shop.groupBy({ by: ["server"], where: { closedAt: null, server: { not: "" } } });
  for (const { server } of servers) {
    const away = await serverFault(server);
    if (!away) continue;
    const shops = await read.shop.findMany({
      where: { closedAt: null, server },
      select: { database: true, slug: true, server: true },
      orderBy: { id: "asc" },
    });
    for (const shop of shops) shutFor(shop, away);
  }
}

/** Brings one shop's database up to date, one process at a time. Answers what was applied. */
export async function migrateShop(
  where: MigrationTarget,
  slug: string,
  progress: (line: string) => void = () => {},
): Promise<string[]> {
  await demandThere(where);
  const label = `shop ${slug}`;
  if (where.provider === "postgresql") return migrateSchema("shop", where, progress, label);
  const lock = await waitForLock(join(dirname(where.file), "..", "migrating.lock"), "alone", LONGEST_MS);
  if (!lock)
    throw new Refusal("Other shops are being brought up to date.", "Try again in a minute.", {}, "busy");
  try {
    return await migrateFile("shop", where.file, progress, label);
  } finally {
    lock.release();
  }
}

async function migrateDirectory(progress: (line: string) => void): Promise<void> {
  try {
    await migrateOne("directory", directoryTarget(), progress, "directory");
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
    if (!existsSync(where.file)) throw notThere();
    return;
  }
  if (!(await inPostgres(where.url, (client) => hasTables(client, where.schema))))
    throw new Refusal("Its schema is missing.");
}

const notThere = () => Object.assign(new Error("The file is not there."), { code: "ENOENT" });

/** What a failure to bring a shop up to date says of it. */
export function faultIn(cause: unknown): Pick<ShopFault, "reason" | "lasting"> {
  if (cause instanceof Refusal) return { reason: cause.message, lasting: true };
  const text = cause instanceof Error ? cause.message : String(cause);
  return (
    sicknessOf(cause) ?? { reason: `It could not be brought up to date: ${firstLine(text)}`, lasting: true }
  );
}

const firstLine = (text: string) => (text.trim().split("\n", 1)[0] ?? "").slice(0, 300);

/** Several app processes may start against one installation: the first migrates, the others wait for it, on the directory's server. */
export async function oneAtATime(run: () => Promise<void>): Promise<void> {
  const url = postgresUrl();
  if (!url) return run();
  // An advisory lock ends with its session; the number only has to be one nobody else takes.
  await inPostgres(url, async (client) => {
    await client.query("SELECT pg_advisory_lock(hashtext('throttlewright migrations'))");
    await run();
  });
}

/** Makes the database of a new shop, like an empty, migrated template. */
export async function createShopDatabase({ database, server }: DatabasePlace): Promise<void> {
  const url = directUrl(server);
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
export async function createShopDatabaseAt(
  place: DatabasePlace,
  level: string,
): Promise<() => Promise<void>> {
  const { database } = place;
  const where = targetOf(place);
  const [ours, theirs] = [migrationNames("shop", "sqlite"), migrationNames("shop", "postgresql")];
  if (!theirs.includes(level)) refuseNewer("shop", "sqlite", [level]);
  // What one kind alone has says nothing of the rows.
  const shared = ours.filter((name) => theirs.includes(name));
  if (level >= (shared.at(-1) ?? "")) {
    await createShopDatabase(place);
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

function directoryTarget(): MigrationTarget {
  const url = postgresUrl();
  return url
    ? { provider: "postgresql", url, schema: "directory" }
    : { provider: "sqlite", file: directoryFile() };
}

function targetOf({ database, server }: DatabasePlace): MigrationTarget {
  const url = directUrl(server);
  return url
    ? { provider: "postgresql", url, schema: database }
    : { provider: "sqlite", file: shopFile(database) };
}

async function migrateOne(
  kind: DatabaseKind,
  where: MigrationTarget,
  progress: (line: string) => void,
  label: string,
): Promise<void> {
  if (where.provider === "sqlite") await migrateFile(kind, where.file, progress, label);
  else await migrateSchema(kind, where, progress, label);
}

async function migrateSchema(
  kind: DatabaseKind,
  where: Extract<MigrationTarget, { provider: "postgresql" }>,
  progress: (line: string) => void,
  label: string,
): Promise<string[]> {
  const applied = await appliedInSchema(where.url, where.schema);
  refuseNewer(kind, where.provider, applied);
  const behind = applied.length < migrationNames(kind, where.provider).length;
  const names = behind ? await applyMigrations(kind, where) : [];
  if (names.length) progress(`${label}: ${names.join(", ")}`);
  if (kind === "shop" && !(await indexWords(where.url, where.schema)))
    progress(`${label}: the server refuses the extension pg_trgm, so searching reads every row.`);
  return names;
}

/** Brings one SQLite file up to date, wherever it lies. Answers what was applied. */
export async function migrateFile(
  kind: DatabaseKind,
  file: string,
  progress: (line: string) => void,
  label: string,
): Promise<string[]> {
  const { applied, writeAheadLog } = stateOfFile(file);
  refuseNewer(kind, "sqlite", applied);
  const behind = applied.length < migrationNames(kind, "sqlite").length;
  const names = behind ? await applyMigrations(kind, { provider: "sqlite", file }) : [];
  if (names.length) progress(`${label}: ${names.join(", ")}`);
  if (behind || !writeAheadLog) keepWriteAheadLog(file);
  return names;
}

/** Makes the indexes that searching uses, as soon as the server has the extension for them; false where it has not. */
export async function indexWords(url: string, schema: string): Promise<boolean> {
  return inPostgres(url, async (client) => {
    await client.query(`SET search_path TO "${schema}"`);
    const { rows } = await client.query<{ made: boolean }>(`SELECT "search_index"() AS made`);
    return rows[0]?.made === true;
  });
}
