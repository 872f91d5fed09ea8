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

interface Made {
  readonly shopTemplate: string;
  readonly databaseTemplate: string;
  readonly compiled: string;
  remove(): void;
}

/** Each project of a run asks for it, in one process. */
const run = globalThis as { madeForTests?: Promise<Made> };

/** Runs before all test files: every migration is applied, and every script compiled, once for a run and not for each file. */
export default async function makeTemplate(project: TestProject): Promise<() => void> {
  run.madeForTests ??= make();
  const made = await run.madeForTests;
  project.provide("shopTemplate", made.shopTemplate);
  project.provide("databaseTemplate", made.databaseTemplate);
  project.provide("compiled", made.compiled);
  return made.remove;
}

async function make(): Promise<Made> {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-template-"));
  reconfigure({ DATA_DIR: folder });
  const compiled = await compileForTests();
  return {
    shopTemplate: await shopTemplate(),
    databaseTemplate: await databaseTemplate(),
    compiled: compiled.folder,
    remove: () => {
      compiled.remove();
      rmSync(folder, { recursive: true, force: true });
    },
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
