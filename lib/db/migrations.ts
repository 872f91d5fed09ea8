import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import { type MigrationTarget, notOurs, withEngine } from "./engine";
import { projectRoot } from "./folders";
import type { DatabaseKind, Provider } from "./schemaFiles";

export interface Migration {
  readonly name: string;
  readonly sql: string;
}

export function migrationFolder(kind: DatabaseKind, provider: Provider): string {
  return join(projectRoot, "prisma/migrations", kind, provider);
}

/** All migrations of one kind of database, oldest first. */
export function migrations(kind: DatabaseKind, provider: Provider): Migration[] {
  const folder = migrationFolder(kind, provider);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => existsSync(join(folder, name, "migration.sql")))
    .sort()
    .map((name) => ({ name, sql: readFileSync(join(folder, name, "migration.sql"), "utf8") }));
}

const named = new Map<string, readonly string[]>();

/** The names alone, read once a process. */
export function migrationNames(kind: DatabaseKind, provider: Provider): readonly string[] {
  const key = `${kind} ${provider}`;
  const names = named.get(key) ?? migrations(kind, provider).map(({ name }) => name);
  named.set(key, names);
  return names;
}

/** Refuses a database that holds migrations this code does not know. */
export function refuseNewer(kind: DatabaseKind, provider: Provider, applied: readonly string[]): void {
  const known = new Set(migrationNames(kind, provider));
  const strange = applied.filter((name) => !known.has(name));
  if (strange.length)
    throw new Refusal(
      `The ${kind} database was written by a newer Throttlewright (it has ${strange.join(", ")}).`,
      "Start the newer version again, or restore a backup made by this one. Nothing was changed.",
    );
}

/** Applies what is missing, up to the named one or all; returns the names applied. Safe to repeat. */
export async function applyMigrations(
  kind: DatabaseKind,
  place: MigrationTarget,
  last?: string,
): Promise<string[]> {
  const list = migrations(kind, place.provider).filter(({ name }) => last === undefined || name <= last);
  return inUseInWords(kind, place, async (engine) => {
    const done = await engine.applyMigrations({
      migrationsList: {
        baseDir: migrationFolder(kind, place.provider),
        lockfile: { path: "migration_lock.toml", content: `provider = "${place.provider}"\n` },
        shadowDbInitScript: "",
        migrationDirectories: list.map((m) => ({
          path: m.name,
          migrationFile: { path: "migration.sql", content: { tag: "ok", value: m.sql } },
        })),
      },
      filters: notOurs(kind, place),
    });
    return done.appliedMigrationNames;
  });
}

/** The engine takes a SQLite file for itself alone, and says of one that another process holds only that it waited. */
async function inUseInWords<T>(
  kind: DatabaseKind,
  place: MigrationTarget,
  use: Parameters<typeof withEngine<T>>[2],
): Promise<T> {
  try {
    return await withEngine(kind, place, use);
  } catch (cause) {
    if (!/SocketTimeout|database is locked|SQLITE_BUSY/.test(String(cause))) throw cause;
    throw new Refusal(
      `The ${kind} database must be brought up to date, and another process is using it.`,
      "Stop the other server or command that uses this data folder, then start again. Nothing was changed.",
    );
  }
}
