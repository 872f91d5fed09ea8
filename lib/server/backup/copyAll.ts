import { join } from "node:path";
import { projectRoot } from "@/lib/db/folders";
import { makeWorkers } from "@/lib/workers/pool";
import type { Copied } from "./copyShop";
import copyAsked, { type AskedCopy } from "./copyThread";
import { clearShops, copiedSoFar, isWhole, keepSoFar, stampOf } from "./unfinished";

interface Place {
  readonly slug: string;
  readonly database: string;
}

/** Told of each shop once it is copied: how many are, of how many, and whether it was by a backup that was cut off. */
export type Told = (
  copied: Copied,
  so: { readonly done: number; readonly of: number; readonly before: boolean },
) => void;

/** So many shops are copied at once, each in a thread of its own: memory does not grow with their number. */
const AT_ONCE = 2;
/** Threads take longer to start than so few shops to be copied. */
const FEW = 4;

/**
 * Copies shops into the folder of a backup. What one that was cut off had copied and checked there stays as it is, unless the shop
 * was written to since.
 */
export async function copyAll(
  shops: readonly Place[],
  making: string,
  before: string | null,
  told: Told,
): Promise<Copied[]> {
  const known = new Set(shops.map(({ database }) => database));
  clearShops(making, (database) => !known.has(database));
  const earlier = copiedSoFar(making);
  const threads =
    shops.length > FEW
      ? makeWorkers(join(projectRoot, "lib/server/backup/copyThread.ts"), AT_ONCE).pool
      : null;
  const copyOne = (asked: AskedCopy): Promise<Copied> => (threads ? threads.run(asked) : copyAsked(asked));
  const copies: Copied[] = [];
  let [next, done, failed] = [0, 0, false];
  const lane = async () => {
    for (let at = next++; at < shops.length && !failed; at = next++) {
      const shop = shops[at] as Place;
      const stamp = stampOf(shop.database);
      const found = earlier.get(shop.database);
      const still = found?.stamp === stamp && isWhole(making, found.copied) ? found.copied : null;
      if (!still) clearShops(making, (database) => database === shop.database);
      const copied: Copied = still
        ? { ...still, slug: shop.slug }
        : await copyOne({ shop, folder: making, before });
      if (!still && copied.there && copied.problems.length === 0) keepSoFar(making, { stamp, copied });
      copies[at] = copied;
      told(copied, { done: ++done, of: shops.length, before: still !== null });
    }
  };
  const lanes = Array.from({ length: threads ? AT_ONCE : 1 }, () =>
    lane().catch((cause: unknown) => {
      failed = true;
      throw cause;
    }),
  );
  try {
    // Whoever failed takes the folder away: not before the other has ended, too.
    for (const ended of await Promise.allSettled(lanes)) if (ended.status === "rejected") throw ended.reason;
    return copies;
  } finally {
    await threads?.destroy();
  }
}
