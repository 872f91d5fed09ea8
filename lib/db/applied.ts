import { existsSync } from "node:fs";
import Database from "better-sqlite3";
import { migrationNames } from "./migrations";
import { inPostgres } from "./postgres";
import { hasTables } from "./shopFaults";

const APPLIED = `SELECT migration_name AS name FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`;

export interface FileState {
  /** The migrations it has. */
  readonly applied: readonly string[];
  readonly writeAheadLog: boolean;
}

/** How a SQLite file stands; throws where it cannot be read, or is held by another process for longer than `waitMs`. */
export function stateOfFile(file: string, waitMs = 5_000): FileState {
  if (!existsSync(file)) return { applied: [], writeAheadLog: false };
  const raw = new Database(file, { readonly: true, timeout: waitMs });
  try {
    const writeAheadLog = raw.pragma("journal_mode", { simple: true }) === "wal";
    const known = raw.prepare(`SELECT 1 FROM sqlite_master WHERE name = '_prisma_migrations'`).get();
    const rows = known ? (raw.prepare(APPLIED).all() as { name: string }[]) : [];
    return { applied: rows.map((row) => row.name), writeAheadLog };
  } finally {
    raw.close();
  }
}

/** Whether a shop's file has every migration that this version knows. */
export function isCurrent(file: string): boolean {
  return stateOfFile(file).applied.length === migrationNames("shop", "sqlite").length;
}

/** The migrations of a schema, which is made where it is not there. */
export async function appliedInSchema(url: string, schema: string): Promise<string[]> {
  return inPostgres(url, async (client) => {
    await client.query(`CREATE SCHEMA IF NOT EXISTS "${schema}"`);
    if (!(await hasTables(client, schema))) return [];
    await client.query(`SET search_path TO "${schema}"`);
    return (await client.query<{ name: string }>(APPLIED)).rows.map((row) => row.name);
  });
}

/** The migrations of a shop's schema; null where it is not there. */
export async function appliedIfThere(url: string, schema: string): Promise<string[] | null> {
  return inPostgres(url, async (client) => {
    if (!(await hasTables(client, schema))) return null;
    await client.query(`SET search_path TO "${schema}"`);
    return (await client.query<{ name: string }>(APPLIED)).rows.map((row) => row.name);
  });
}
