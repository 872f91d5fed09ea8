import type pg from "pg";
import { applyMigrations, migrations } from "./migrations";
import { inPostgres } from "./postgres";
import { schemaDigest } from "./schemaFiles";
import { schemaScript } from "./schemaScript";

/**
 * A shop has some five hundred tables, indexes and sequences. One transaction over all of them holds more than two thousand locks,
 * a third of what a stock server has for everybody (max_locks_per_transaction 64), so schemas are made and dropped in pieces.
 */
const STATEMENTS = 40;
const TABLES = 20;

const MAKING = "template_in_the_making";

const scripts = new Map<string, Promise<string[]>>();

/** Makes a shop's schema as all migrations leave it. Cut off half-way it leaves a piece, which `dropSchema` takes away. */
export async function createSchema(url: string, schema: string): Promise<void> {
  const statements = await shopScript(url);
  await inPostgres(url, async (client) => {
    await client.query(`CREATE SCHEMA IF NOT EXISTS "${schema}"`);
    for (let from = 0; from < statements.length; from += STATEMENTS)
      await inSchema(client, schema, statements.slice(from, from + STATEMENTS).join(";\n"));
    // The extension may have come since the template was made.
    await inSchema(client, schema, `SELECT "search_index"()`);
  });
}

const inSchema = (client: pg.ClientBase, schema: string, sql: string) =>
  client.query(`BEGIN; SET LOCAL search_path TO "${schema}"; ${sql}; COMMIT`);

/** Drops a shop's schema with all that is in it, in pieces; one that was cut off can be done again. */
export async function dropSchema(url: string, schema: string): Promise<void> {
  await inPostgres(url, async (client) => {
    const { rows } = await client.query<{ name: string }>(
      `SELECT format('%I.%I', schemaname, tablename) AS name FROM pg_tables WHERE schemaname = $1 ORDER BY tablename`,
      [schema],
    );
    const names = rows.map(({ name }) => name);
    for (let from = 0; from < names.length; from += TABLES)
      await client.query(`DROP TABLE IF EXISTS ${names.slice(from, from + TABLES).join(", ")} CASCADE`);
    await client.query(`DROP SCHEMA IF EXISTS "${schema}" CASCADE`);
  });
}

/** Makes the template of shops' schemas ready, so that nobody's sign-up waits for it. */
export async function readySchema(url: string): Promise<void> {
  await shopScript(url);
}

function shopScript(url: string): Promise<string[]> {
  let script = scripts.get(url);
  if (!script) {
    script = readScript(url);
    script.catch(() => scripts.delete(url));
    scripts.set(url, script);
  }
  return script;
}

/** An empty, migrated schema that shops' are made like; whoever asks first makes it, under another name until it is whole. */
async function readScript(url: string): Promise<string[]> {
  const name = `template_${schemaDigest()}_${migrations("shop", "postgresql").length}`;
  return inPostgres(url, async (client) => {
    // Ends with the session, which is this one's alone.
    await client.query("SELECT pg_advisory_lock(hashtext('throttlewright template'))");
    const { rows } = await client.query<{ name: string }>(
      "SELECT nspname AS name FROM pg_namespace WHERE nspname LIKE 'template\\_%'",
    );
    if (!rows.some((row) => row.name === name)) {
      for (const old of rows) await dropTemplate(url, client, old.name);
      await client.query(`CREATE SCHEMA "${MAKING}"`);
      await applyMigrations("shop", { provider: "postgresql", url, schema: MAKING });
      await client.query(`ALTER SCHEMA "${MAKING}" RENAME TO "${name}"`);
    }
    return schemaScript(client, name);
  });
}

/** Other versions' templates, and what a process that was killed left: under its name none is ever half there. */
async function dropTemplate(url: string, client: pg.ClientBase, name: string): Promise<void> {
  if (name !== MAKING) {
    await dropSchema(url, MAKING);
    await client.query(`ALTER SCHEMA "${name}" RENAME TO "${MAKING}"`);
  }
  await dropSchema(url, MAKING);
}
