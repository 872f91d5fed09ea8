import { randomBytes } from "node:crypto";
import { afterAll, expect, inject } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { closePool } from "@/lib/db/pools";
import { inPostgres } from "@/lib/db/postgres";
import { closeShops } from "@/lib/db/shop";
import { withDeadline } from "@/lib/workers/pool";

/**
 * On PostgreSQL each test file has a database of its own, as it has a folder of its own on SQLite: a copy of one that holds the
 * migrated directory and the template of shops' schemas. It goes with all that is in it.
 */
const { DATABASE_URL, DIRECT_DATABASE_URL } = process.env;
const server = DIRECT_DATABASE_URL ?? DATABASE_URL;
const made: string[] = [];
const WORKER_MS = 60_000;

/** Another empty directory, for a file that wants more than one; on SQLite a new data folder is one already. */
export async function freshDatabase(): Promise<void> {
  if (!server) return;
  await closeAll();
  const name = await makeDatabase(server);
  reconfigure({ DATABASE_URL: at(name, DATABASE_URL), DIRECT_DATABASE_URL: at(name, DIRECT_DATABASE_URL) });
}

/** Further databases for this file: they stand for servers of their own, by the names given. */
export async function nameServers(...names: readonly string[]): Promise<void> {
  if (!server) throw new Error("This needs PostgreSQL.");
  const further = new Map<string, string>();
  for (const name of names) {
    const database = await makeDatabase(server);
    // A server of its own has no directory.
    await inPostgres(at(database, server) as string, (client) =>
      client.query("DROP SCHEMA directory CASCADE"),
    );
    further.set(name, database);
  }
  const written = (address: string | undefined) =>
    address && [...further].map(([name, database]) => `${name}=${at(database, address)}`).join("\n");
  reconfigure({
    DATABASE_SERVERS: written(DATABASE_URL),
    DIRECT_DATABASE_SERVERS: written(DIRECT_DATABASE_URL),
  });
}

async function makeDatabase(server: string): Promise<string> {
  const name = `file_${randomBytes(6).toString("hex")}`;
  const template = inject("databaseTemplate");
  await inPostgres(server, async (client) => {
    const { rows } = await client.query<{ version: string }>(
      "SELECT current_setting('server_version_num') AS version",
    );
    // A third of the work of the usual way, which writes every page into the log too. Older servers know no other.
    const way = Number(rows[0]?.version) >= 150_000 ? "STRATEGY FILE_COPY" : "";
    await client.query(`CREATE DATABASE "${name}" TEMPLATE "${template}" ${way}`);
  });
  made.push(name);
  return name;
}

const at = (name: string, address: string | undefined) =>
  address && Object.assign(new URL(address), { pathname: `/${name}` }).href;

async function closeAll(): Promise<void> {
  await closeShops();
  await closeDirectory();
  await closePool();
}

if (server) {
  // The driver is about to refuse a statement that is sent while its session answers another.
  const together: string[] = [];
  process.on("warning", ({ message }) => {
    if (message.includes("already executing a query")) together.push(message);
  });
  // Worker threads stand behind everything else on the machine, and two files and the server are a lot of it.
  let ended = () => {};
  const file = new Promise<void>((resume) => {
    ended = resume;
  });
  void withDeadline(WORKER_MS, () => file);
  await freshDatabase();
  afterAll(async () => {
    ended();
    expect(together).toEqual([]);
  });
  afterAll(async () => {
    await closeAll();
    for (const name of made)
      await inPostgres(server, (client) => client.query(`DROP DATABASE "${name}" WITH (FORCE)`));
    reconfigure({
      DATABASE_URL,
      DIRECT_DATABASE_URL,
      DATABASE_SERVERS: undefined,
      DIRECT_DATABASE_SERVERS: undefined,
      NEW_SHOPS_ON: undefined,
    });
  });
}
