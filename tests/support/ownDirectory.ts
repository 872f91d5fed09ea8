import { randomBytes } from "node:crypto";
import { reconfigure } from "@/lib/configuration/configuration";
import { postgresUrl } from "@/lib/db/folders";
import { inPostgres } from "@/lib/db/postgres";

/**
 * A directory that no other test file shares: on SQLite every file has its own anyway, on PostgreSQL it gets a database of
 * its own. Call it first; children started afterwards use the same.
 */
export async function ownDirectory(): Promise<void> {
  const url = postgresUrl();
  if (!url) return;
  const name = `own_${randomBytes(6).toString("hex")}`;
  await inPostgres(url, (client) => client.query(`CREATE DATABASE "${name}"`));
  const own = new URL(url);
  own.pathname = `/${name}`;
  reconfigure({ DATABASE_URL: own.toString() });
}
