import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import type { TestProject } from "vitest/node";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { closePool } from "@/lib/db/pools";
import { inPostgres } from "@/lib/db/postgres";
import { shopTemplate } from "@/lib/db/template";
import { compileForTests } from "./compiled";
import { makeSpares } from "./spareSchemas";

declare module "vitest" {
  export interface ProvidedContext {
    /** An empty, migrated shop file; what a data folder's own template would be. */
    shopTemplate: string;
    /** The database that each test file's own is a copy of; none on SQLite. */
    databaseTemplate: string;
    /** The folder of compiled scripts: tests/support/compiled.ts. */
    compiled: string;
  }
}

/** Runs once before all test files: every migration is applied, and every script compiled, once for a run and not for each file. */
export default async function makeTemplate(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-template-"));
  reconfigure({ DATA_DIR: folder });
  project.provide("shopTemplate", await shopTemplate());
  project.provide("databaseTemplate", await databaseTemplate());
  const compiled = await compileForTests();
  project.provide("compiled", compiled.folder);
  return () => {
    compiled.remove();
    rmSync(folder, { recursive: true, force: true });
  };
}

async function databaseTemplate(): Promise<string> {
  const server = postgresUrl();
  if (!server) return "";
  const name = `files_${process.pid}`;
  const url = Object.assign(new URL(server), { pathname: `/${name}` }).href;
  const { DATABASE_URL, DIRECT_DATABASE_URL } = configuration();
  await inPostgres(server, (client) => client.query(`CREATE DATABASE "${name}"`));
  // A pooler would keep sessions on it, and a database that somebody is connected to is no template.
  reconfigure({ DATABASE_URL: url, DIRECT_DATABASE_URL: undefined });
  try {
    await migrateAll();
    await makeSpares(url);
  } finally {
    await closeDirectory();
    await closePool();
    reconfigure({ DATABASE_URL, DIRECT_DATABASE_URL });
  }
  return name;
}

/** Lays the template into a data folder, where the product looks for its own. */
export function layTemplate(template: string, folder: string): void {
  copyFileSync(template, join(folder, basename(template)));
}
