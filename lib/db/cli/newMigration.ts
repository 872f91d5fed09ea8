import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { say } from "@/lib/log/say";
import { type MigrationTarget, notOurs, withEngine } from "../engine";
import { postgresUrl, projectRoot } from "../folders";
import { applyMigrations, migrationFolder, migrations } from "../migrations";
import { inPostgres } from "../postgres";
import { type DatabaseKind, type Provider, schemaFiles } from "../schemaFiles";

/** SQL that turns a database with all migrations so far into the present schema. Empty when they agree. */
export async function missingSql(kind: DatabaseKind, provider: Provider, postgres?: string): Promise<string> {
  if (provider === "sqlite") {
    const work = mkdtempSync(join(tmpdir(), "throttlewright-diff-"));
    return difference(kind, { provider, file: join(work, "now.sqlite") }).finally(() =>
      rmSync(work, { recursive: true, force: true }),
    );
  }
  if (!postgres) throw new Error("Set DATABASE_URL to a PostgreSQL database to compare with.");
  const schema = `diff_${kind}_${process.pid}`;
  await inPostgres(postgres, (client) => client.query(`CREATE SCHEMA "${schema}"`));
  return difference(kind, { provider, url: postgres, schema })
    .then((sql) => sql.replaceAll(`"${schema}".`, ""))
    .finally(() => inPostgres(postgres, (client) => client.query(`DROP SCHEMA "${schema}" CASCADE`)));
}

async function difference(kind: DatabaseKind, place: MigrationTarget): Promise<string> {
  const files = schemaFiles(kind, place.provider).map(([path, content]) => ({ path, content }));
  await applyMigrations(kind, place);
  const { stdout } = await withEngine(kind, place, (engine) =>
    engine.diff({
      from: { tag: "schemaDatasource", files, configDir: projectRoot },
      to: { tag: "schemaDatamodel", files },
      script: true,
      exitCode: null,
      filters: notOurs(kind, place),
    }),
  );
  return clean(stdout ?? "");
}

/**
 * A migration names no schema: the search path says which shop's it runs in. The engine writes a JSON default for SQLite bare, as
 * in DEFAULT [], which SQLite does not take: it is a text there.
 */
export function clean(sql: string): string {
  const kept = sql
    .replace(/( JSONB(?: NOT NULL)? DEFAULT )([[{].*?)(?=,?$)/gm, (_, column: string, json: string) => {
      const end = json.endsWith(";") ? ";" : "";
      return `${column}'${json.slice(0, json.length - end.length).replaceAll("'", "''")}'${end}`;
    })
    .replace(/-- CreateSchema\s*CREATE SCHEMA IF NOT EXISTS "[^"]+";\s*/g, "")
    .replaceAll('"public".', "");
  return /^\s*(--[^\n]*\s*)*$/.test(kept) ? "" : kept;
}

async function main(name: string): Promise<void> {
  if (!/^[a-z][a-z0-9_]*$/.test(name))
    throw new Error("Give the migration a name: npm run migration:new -- add_something");
  for (const provider of ["sqlite", "postgresql"] as const)
    for (const kind of ["directory", "shop"] as const) {
      if (provider === "postgresql" && !postgresUrl()) {
        say(`${kind} on postgresql: set DATABASE_URL to a PostgreSQL database to make this one too.`);
        continue;
      }
      const sql = await missingSql(kind, provider, postgresUrl());
      if (!sql) {
        say(`${kind} on ${provider}: nothing to do.`);
        continue;
      }
      const number = String(migrations(kind, provider).length + 1).padStart(4, "0");
      const folder = join(migrationFolder(kind, provider), `${number}_${name}`);
      mkdirSync(folder, { recursive: true });
      writeFileSync(join(folder, "migration.sql"), sql);
      say(`${kind} on ${provider}: wrote ${number}_${name}.`);
    }
}

if (process.argv[1]?.endsWith("newMigration.ts")) await main(process.argv[2] ?? "");
