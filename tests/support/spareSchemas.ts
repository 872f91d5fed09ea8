import { postgresUrl } from "@/lib/db/folders";
import { inPostgres } from "@/lib/db/postgres";
import { createSchema } from "@/lib/db/shopSchema";

/**
 * A shop's schema takes the server a third of a second to make, and a few hundred tests begin with two. So the database that each
 * file's own is a copy of holds some that are made, and they take a shop's name, as a restored one does. Those of the product's own doors
 * (sign-up, import, the demo) are made anew.
 */
const SPARE = 12;

export async function makeSpares(url: string): Promise<void> {
  for (let n = 0; n < SPARE; n++) await createSchema(url, `spare_${n}`);
}

/** Gives a spare schema a shop's name; false where there is none, or on SQLite. */
export async function takeSpare(database: string): Promise<boolean> {
  const url = postgresUrl();
  if (!url) return false;
  return inPostgres(url, async (client) => {
    const { rows } = await client.query<{ name: string }>(
      `SELECT nspname AS name FROM pg_namespace WHERE nspname LIKE 'spare\\_%' ORDER BY 1 LIMIT 1`,
    );
    const spare = rows[0]?.name;
    if (spare) await client.query(`ALTER SCHEMA "${spare}" RENAME TO "${database}"`);
    return spare !== undefined;
  });
}
