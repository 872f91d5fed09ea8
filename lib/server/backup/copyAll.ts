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
/** Threads are begun anew after so many shops: what they have left uncollected goes with them. */
const FRESH = 40;

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
  const copies: Copied[] = [];
  const copyIn = async (shop: Place, copyOne: CopyOne) => {
    const stamp = stampOf(shop.database);
    const found = earlier.get(shop.database);
    const still = found?.stamp === stamp && isWhole(making, found.copied) ? found.copied : null;
    if (!still) clearShops(making, (database) => database === shop.database);
    const copied: Copied = still
      ? { ...still, slug: shop.slug }
      : await copyOne({ shop, folder: making, before });
    if (!still && copied.there && copied.problems.length === 0) keepSoFar(making, { stamp, copied });
    copies[shops.indexOf(shop)] = copied;
    told(copied, {
      done: copies.filter(Boolean).length,
      of: shops.length,
      before: still !== null,
    });
  };
  for (let from = 0; from < shops.length; from += FRESH)
    await copySome(shops.slice(from, from + FRESH), copyIn);
  return copies;
}

type CopyOne = (asked: AskedCopy) => Promise<Copied>;

async function copySome(
  shops: readonly Place[],
  copyIn: (shop: Place, copyOne: CopyOne) => Promise<void>,
): Promise<void> {
  const threads = shops.length > FEW ? makeWorkers("lib/server/backup/copyThread.ts", AT_ONCE).pool : null;
  const copyOne: CopyOne = (asked) => (threads ? threads.run(asked) : copyAsked(asked));
  const left = [...shops];
  const lane = async () => {
    try {
      for (let shop = left.shift(); shop; shop = left.shift()) await copyIn(shop, copyOne);
    } catch (cause) {
      left.length = 0;
      throw cause;
    }
  };
  try {
    const lanes = Array.from({ length: threads ? AT_ONCE : 1 }, lane);
    // Whoever failed takes the folder away: not before the other has ended, too.
    for (const ended of await Promise.allSettled(lanes)) if (ended.status === "rejected") throw ended.reason;
  } finally {
    await threads?.destroy();
  }
}
