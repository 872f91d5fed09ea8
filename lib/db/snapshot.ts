import { postgresClient, type ShopClient } from "./clients";
import type { DatabasePlace } from "./servers";

/** How many rows each table of a schema has, by its name; tables without rows as well. */
export type Rows = Readonly<Record<string, number>>;

/** A large shop's copy and the look through its books take minutes. */
const LONGEST_MS = 3_600_000;

type Reader = Pick<ShopClient, "$queryRawUnsafe">;

/**
 * Runs `use` with a schema's rows as they stand at one moment, however long it takes and whatever is written meanwhile. The
 * snapshot's name lets pg_dump see the very same.
 */
export async function inSnapshot<T>(
  kind: "shop" | "directory",
  { database, server }: DatabasePlace,
  use: (read: ShopClient, snapshot: string) => Promise<T>,
): Promise<T> {
  const client = postgresClient(kind as "shop", server, database, "read");
  try {
    return await client.$transaction(
      async (tx) => {
        const read = tx as unknown as ShopClient;
        const rows = await read.$queryRawUnsafe<{ name: string }[]>("SELECT pg_export_snapshot() AS name");
        return use(read, rows[0]?.name ?? "");
      },
      { timeout: LONGEST_MS, maxWait: LONGEST_MS, isolationLevel: "RepeatableRead" as never },
    );
  } finally {
    await client.$disconnect();
  }
}

/** The rows of each table of a schema. */
export async function rowsOf(read: Reader, schema: string): Promise<Rows> {
  const tables = await read.$queryRawUnsafe<{ name: string; place: string }[]>(
    "SELECT tablename AS name, format('%I.%I', schemaname, tablename) AS place FROM pg_tables WHERE schemaname = $1 ORDER BY 1",
    schema,
  );
  const rows: Record<string, number> = {};
  for (const { name, place } of tables) {
    const [counted] = await read.$queryRawUnsafe<{ n: number }[]>(`SELECT count(*)::int AS n FROM ${place}`);
    rows[name] = counted?.n ?? 0;
  }
  return rows;
}

/** The first table of which two counts differ, in a sentence; null where they agree. */
export function differenceOf(here: Rows, there: Rows): string | null {
  for (const table of new Set([...Object.keys(here), ...Object.keys(there)]))
    if (here[table] !== there[table])
      return `${table} has ${here[table] ?? "no"} rows in the copy, ${there[table] ?? "no"} were there.`;
  return null;
}
