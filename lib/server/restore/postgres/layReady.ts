import { existsSync } from "node:fs";
import { join } from "node:path";
import { postgresClient } from "@/lib/db/clients";
import { applyMigrations, migrations, refuseNewer } from "@/lib/db/migrations";
import { inPostgres } from "@/lib/db/postgres";
import type { DatabaseKind } from "@/lib/db/schemaFiles";
import { type DatabasePlace, demandAddress } from "@/lib/db/servers";
import { dropSchema } from "@/lib/db/shopSchema";
import { differenceOf, type Rows, rowsOf } from "@/lib/db/snapshot";
import { Refusal } from "@/lib/domain/refusal";
import { digestOf } from "../../backup/copyDatabase";
import { words } from "../../backup/copyShop";
import { scriptOf } from "../../backup/postgres/dump";
import { ended, startProgram } from "../../backup/postgres/programs";

/** The schema that a copy is laid ready in, beside the one that it is to replace. */
export const coming = (schema: string) => `coming_${schema}`;

interface Copy {
  readonly kind: DatabaseKind;
  /** Where it is to be put back. */
  readonly place: DatabasePlace;
  readonly file: string;
  readonly digest: string | undefined;
  readonly rows: Rows | undefined;
}

/**
 * Lays a copy of a schema ready beside the one it is to replace, held to what its backup says of it and brought up to date. Answers
 * what is wrong with it; null for nothing.
 */
export async function layReady(copy: Copy): Promise<string | null> {
  const { kind, file } = copy;
  const { database: schema, server } = copy.place;
  const url = demandAddress(server).direct;
  if (!existsSync(file)) return "The copy does not hold its file.";
  if (copy.digest && digestOf(file) !== copy.digest)
    return "Its file has been changed since the backup was made.";
  const place = coming(schema);
  await dropSchema(url, place);
  try {
    await written(url, schema, place, file);
    const lost = copy.rows && differenceOf(await rowsHere(kind, { database: place, server }), copy.rows);
    if (lost) return lost;
    await broughtUpToDate(url, kind, place);
    return null;
  } catch (cause) {
    if (cause instanceof Refusal && /disk|program/.test(cause.message)) throw cause;
    return cause instanceof Refusal ? cause.message : `PostgreSQL cannot read it: ${words(cause)}.`;
  }
}

/**
 * Writes a file's schema under another name. The name stands in the script wherever something is made, never in a table's rows, which
 * go through as they are. Indexes of trigrams are left out: search_index makes them where the server has the extension.
 */
async function written(url: string, schema: string, place: string, file: string): Promise<void> {
  const psql = startProgram("psql", ["--quiet", "--no-psqlrc", "--set=ON_ERROR_STOP=1", "--file=-"], url);
  psql.stdout?.resume();
  // It ends at the first statement that fails; what is still written to it then goes nowhere.
  psql.stdin?.on("error", () => undefined);
  const done = ended(psql, "psql");
  done.catch(() => undefined);
  const named = new RegExp(`(?<![\\w."])${schema}(?=[. ;]|$)`, "g");
  for await (const { bytes, row } of scriptOf(join(file), "--no-owner", "--no-privileges")) {
    const line = row ? bytes : renamed(bytes.toString(), named, place);
    if (line === null || !psql.stdin) continue;
    psql.stdin.write(line);
    if (!psql.stdin.write("\n") && psql.exitCode === null)
      await Promise.race([
        new Promise((resume) => psql.stdin?.once("drain", resume)),
        done.catch(() => undefined),
      ]);
  }
  psql.stdin?.end();
  await done;
}

function renamed(line: string, named: RegExp, place: string): string | null {
  return /^CREATE INDEX .*gin_trgm_ops/.test(line) ? null : line.replaceAll(named, place);
}

async function rowsHere(kind: DatabaseKind, { database, server }: DatabasePlace): Promise<Rows> {
  const client = postgresClient(kind as "shop", server, database, "read");
  try {
    return await rowsOf(client, database);
  } finally {
    await client.$disconnect();
  }
}

async function broughtUpToDate(url: string, kind: DatabaseKind, schema: string): Promise<void> {
  const names = await inPostgres(url, async (client) => {
    const { rows } = await client.query<{ name: string }>(
      `SELECT migration_name AS name FROM "${schema}"."_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`,
    );
    return rows.map(({ name }) => name);
  });
  refuseNewer(kind, "postgresql", names);
  if (names.length < migrations(kind, "postgresql").length)
    await applyMigrations(kind, { provider: "postgresql", url, schema });
  if (kind === "shop")
    await inPostgres(url, (client) =>
      client.query(`BEGIN; SET LOCAL search_path TO "${schema}"; SELECT "search_index"(); COMMIT`),
    );
}
