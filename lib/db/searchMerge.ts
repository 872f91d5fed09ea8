import { postgresUrl } from "./folders";
import type { SearchTable } from "./search";
import type { ShopTx } from "./shop";

/** So many pages are written in one step at most: some ten milliseconds. */
const STEP_PAGES = 64;
/** Enough for some hundred thousand rows; what is left then waits for the next time. */
const MOST_STEPS = 500;

/**
 * Merges what was written into the trigrams of some tables, and what was deleted out of them, in short steps with turns for others
 * between. FTS5 does not merge deletions by itself here (migration 0023). Nothing on PostgreSQL, which sees to its own index.
 */
export async function mergeSearchIn(tx: ShopTx, tables: readonly SearchTable[]): Promise<void> {
  if (postgresUrl() !== undefined) return;
  for (const table of tables)
    for (let step = 0; step < MOST_STEPS; step++) {
      const before = await changesOf(tx);
      await tx.$executeRawUnsafe(
        `INSERT INTO "${table}Search" ("${table}Search", rank) VALUES ('merge', -${STEP_PAGES})`,
      );
      // Fewer than two: there was nothing to merge. Source: SQLite's FTS5, section 6.8 (the merge command).
      if ((await changesOf(tx)) - before < 2) break;
    }
}

async function changesOf(tx: ShopTx): Promise<number> {
  const [row] = await tx.$queryRawUnsafe<{ made: number | bigint }[]>(`SELECT total_changes() AS "made"`);
  return Number(row?.made ?? 0);
}
