import { inPostgres } from "@/lib/db/postgres";

/** What lies ready, under what name, and which schema it takes the place of. */
export interface Coming {
  readonly schema: string;
  readonly ready: string;
}

/**
 * Gives schemas their new contents in one transaction: all of them or none. What was there keeps its tables under another name. A
 * schema is renamed by one row of the catalogue, so that as many shops as there are fit into a stock server's locks.
 */
export async function swap(
  url: string,
  comes: readonly Coming[],
  goes: readonly string[],
  asideAs: (schema: string) => string,
): Promise<string[]> {
  return inPostgres(url, async (client) => {
    const { rows } = await client.query<{ name: string }>("SELECT nspname AS name FROM pg_namespace");
    const there = new Set(rows.map(({ name }) => name));
    const aside = [...comes.map(({ schema }) => schema), ...goes].filter((schema) => there.has(schema));
    await client.query("BEGIN");
    for (const schema of aside) await client.query(`ALTER SCHEMA "${schema}" RENAME TO "${asideAs(schema)}"`);
    for (const { schema, ready } of comes)
      await client.query(`ALTER SCHEMA "${ready}" RENAME TO "${schema}"`);
    await client.query("COMMIT");
    return aside.map(asideAs);
  });
}
