import pg from "pg";

/** Runs `use` on a PostgreSQL session of its own, for what stands outside any one shop's client. */
export async function inPostgres<T>(url: string, use: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await use(client);
  } finally {
    await client.end();
  }
}
