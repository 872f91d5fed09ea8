import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { configuration } from "../configuration/configuration";

/** The folder that holds package.json, wherever the code runs from (source, build or a script). */
export const projectRoot = findRoot(process.cwd());

function findRoot(from: string): string {
  if (existsSync(join(from, "prisma", "shop"))) return from;
  const up = dirname(from);
  if (up === from) throw new Error("Start Throttlewright from its own folder, the one with package.json.");
  return findRoot(up);
}

/** Where databases, files and the generated secret live: DATA_DIR, or .data in the project. */
export function dataFolder(): string {
  return resolve(projectRoot, configuration().DATA_DIR);
}

/**
 * Where the directory's PostgreSQL server is, past any pooler: for what needs a session. Undefined where SQLite files are used. Where a
 * shop is: servers.ts.
 */
export function postgresUrl(): string | undefined {
  const { DATABASE_URL, DIRECT_DATABASE_URL } = configuration();
  return DIRECT_DATABASE_URL ?? DATABASE_URL;
}

/** Where exports of whole shops are kept until they are fetched. Several app processes share it by sharing the folder. */
export function exportsFolder(): string {
  return join(dataFolder(), "exports");
}

/** Folder of one shop's pictures, beside the databases. `database` is Shop.database of the directory. */
export function filesFolder(database: string): string {
  if (!/^[a-z0-9_]+$/.test(database)) throw new Error("Not a database name.");
  return join(dataFolder(), "files", database);
}
