import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { type BackupRecord, backupRecord, keepBackupRecord, type LastBackup } from "@/lib/db/backupRecord";
import { directory, directoryFile } from "@/lib/db/directory";
import { tryLock } from "@/lib/db/folderLock";
import { dataFolder, postgresUrl } from "@/lib/db/folders";
import { backupsToKeep, type Kept } from "@/lib/domain/backup/keep";
import { Refusal } from "@/lib/domain/refusal";
import { copyAll, type Told } from "./copyAll";
import { copyDatabase, sizeOf } from "./copyDatabase";
import { files } from "./copyFiles";
import type { Copied } from "./copyShop";
import { type CopiedDirectory, copyDirectorySchema, DIRECTORY_DUMP, schemas } from "./postgres/copySchema";
import { demandPrograms } from "./postgres/programs";
import { forgetSoFar, makingOf, takeUpUnfinished } from "./unfinished";

/** What lies beside the copies: what they are of and how they stood when they were made. */
export interface Manifest {
  /** The directory's schema on PostgreSQL; its SQLite file speaks for itself. */
  readonly directory?: CopiedDirectory;
  readonly beganAt: string;
  readonly endedAt: string;
  readonly shops: readonly Copied[];
}

export const MANIFEST = "backup.json";

const DIRECTORY_FILE = "directory.sqlite";
/** What a backup that was cut off may have left of the directory, of either kind. */
const DIRECTORY_COPIES = [DIRECTORY_DUMP, DIRECTORY_FILE, `${DIRECTORY_FILE}-wal`, `${DIRECTORY_FILE}-shm`];

export interface Made extends Manifest {
  readonly folder: string;
  readonly bytes: number;
}

/**
 * Copies the directory and every shop into `folder` while the server runs, and checks each copy. Until it is whole it bears
 * another name, and one that was cut off is gone on with. A shop that fails is told of in the answer and the next is copied.
 * The result is kept for the server to show.
 */
export async function makeBackup(folder: string, told: Told = () => {}): Promise<Made> {
  if (postgresUrl()) demandPrograms("pg_dump", "pg_restore");
  const lock = tryLock(join(dataFolder(), "backup.lock"), "alone");
  if (!lock) throw new Refusal("Another backup is running.", "Wait until it has ended.");
  const beganAt = new Date().toISOString();
  try {
    if (existsSync(folder) && readdirSync(folder).length)
      throw new Refusal(`The folder ${folder} is not empty.`, "Name one that is not there yet.");
    const made = await into(folder, beganAt, told);
    keepResult(made);
    return made;
  } catch (cause) {
    keepFailure(beganAt, folder, cause);
    throw cause;
  } finally {
    lock.release();
  }
}

async function into(folder: string, beganAt: string, told: Told): Promise<Made> {
  const making = makingOf(folder);
  takeUpUnfinished(making);
  try {
    const url = postgresUrl();
    for (const name of DIRECTORY_COPIES) rmSync(join(making, name), { force: true });
    const target = join(making, url ? DIRECTORY_DUMP : DIRECTORY_FILE);
    const held = url ? { directory: await copyDirectorySchema(url, target) } : copyDirectory(target);
    const rows = await directory().read.shop.findMany({
      select: { slug: true, database: true, server: true },
      orderBy: { id: "asc" },
    });
    const before = earlierBeside(folder);
    const shops = await copyAll(url ? schemas : files, rows, making, before, told);
    const manifest: Manifest = { ...held, beganAt, endedAt: new Date().toISOString(), shops };
    writeFileSync(join(making, MANIFEST), JSON.stringify(manifest, null, 1), { mode: 0o600 });
    const bytes = shops.reduce((sum, shop) => sum + shop.bytes, sizeOf(target));
    forgetSoFar(making);
    renameSync(making, folder);
    return { ...manifest, folder, bytes };
  } catch (cause) {
    rmSync(making, { recursive: true, force: true });
    throw cause;
  }
}

function copyDirectory(target: string): object {
  try {
    copyDatabase(directoryFile(), target);
    return {};
  } catch (cause) {
    if (/SQLITE_FULL|ENOSPC|disk is full/.test(`${(cause as { code?: string }).code} ${String(cause)}`))
      throw new Refusal(
        "The disk is full: no backup was made.",
        "Free some space, or set BACKUP_DIR to another disk.",
      );
    throw new Refusal(
      `The directory database could not be copied: ${(cause as Error).message}`,
      "Keep the last good backup.",
    );
  }
}

function earlierBeside(folder: string): string | null {
  const all = backupsIn(dirname(folder)).filter(({ path }) => path !== folder);
  return all.at(-1)?.path ?? null;
}

/** Whole backups in a folder, oldest first, each named by the moment it was begun. */
export function backupsIn(folder: string): (Kept & { path: string })[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /^\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z$/.test(name))
    .sort()
    .flatMap((name) => {
      const path = join(folder, name);
      const manifest = manifestOf(path);
      if (!manifest) return [];
      const good = manifest.shops.filter((shop) => shop.there && shop.problems.length === 0);
      return [{ path, at: manifest.beganAt, good: good.map((shop) => shop.database) }];
    });
}

export function manifestOf(folder: string): Manifest | null {
  const file = join(folder, MANIFEST);
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as Manifest) : null;
}

/** Removes the backups in a folder that no longer need be kept; answers their names. */
export function dropOldBackups(folder: string, days: number, weeks: number): string[] {
  const all = backupsIn(folder);
  const stays = backupsToKeep(all, days, weeks);
  const gone = all.filter(({ at }) => !stays.has(at));
  for (const { path } of gone) rmSync(path, { recursive: true, force: true });
  return gone.map(({ path }) => basename(path));
}

function keepResult({ beganAt, endedAt, folder, bytes, shops }: Made): void {
  const known = recordSoFar();
  const next = shops.map((shop) => {
    const good = shop.there && shop.problems.length === 0;
    const earlier = known.shops[shop.database];
    return [
      shop.database,
      {
        triedAt: endedAt,
        problems: shop.problems.slice(0, 20),
        goodAt: good ? beganAt : (earlier?.goodAt ?? null),
        bytes: good ? shop.bytes : (earlier?.bytes ?? 0),
      },
    ] as const;
  });
  const bad = shops.filter((shop) => !shop.there || shop.problems.length).length;
  keepBackupRecord({
    since: known.since,
    last: { beganAt, endedAt, folder, bytes, shops: shops.length, bad },
    shops: Object.fromEntries(next),
  });
}

/** A backup that was not made at all. The shops' last good copies are what they were. */
export function keepFailure(beganAt: string, folder: string, cause: unknown): void {
  const failed = (cause instanceof Error ? cause.message : String(cause)).slice(0, 300);
  const last: LastBackup = {
    beganAt,
    endedAt: new Date().toISOString(),
    folder,
    bytes: 0,
    shops: 0,
    bad: 0,
    failed,
  };
  keepBackupRecord({ ...recordSoFar(), last });
}

/** The record as it stands; begun now where there is none. */
export function recordSoFar(): BackupRecord {
  return backupRecord() ?? { since: new Date().toISOString(), last: null, shops: {} };
}
