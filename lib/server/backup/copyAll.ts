import type { ShopPlace } from "@/lib/db/servers";
import type { Copied } from "./copyShop";
import { clearShops, copiedSoFar, isWhole, keepSoFar } from "./unfinished";

/** One shop, the folder of the backup that it is copied into, and that of the backup before. */
export interface AskedCopy {
  readonly shop: ShopPlace;
  readonly folder: string;
  readonly before: string | null;
}

/** How shops of a kind of database are copied. */
export interface CopyWay {
  /**
   * How a shop's database stands: changes with every write that leaves other rows, and with a new version of ours, whose check might find more. Null
   * where that cannot be told: the copy says why, and is not kept for the next backup.
   */
  stampOf(shop: ShopPlace): Promise<string | null>;
  /** The file of a shop's database, relative to a backup. */
  fileOf(database: string): string;
  /** Gets ready to copy so many shops. */
  begin(count: number): Copiers;
}

export interface Copiers {
  /** So many shops are copied at once: memory does not grow with their number. */
  readonly atOnce: number;
  copy(asked: AskedCopy): Promise<Copied>;
  end(): Promise<void>;
}

/** Told of each shop once it is copied: how many are, of how many, and whether it was by a backup that was cut off. */
export type Told = (
  copied: Copied,
  so: { readonly done: number; readonly of: number; readonly before: boolean },
) => void;

/** Copiers are begun anew after so many shops: what they have left uncollected goes with them. */
const FRESH = 40;

/**
 * Copies shops into the folder of a backup. What one that was cut off had copied and checked there stays as it is, unless the shop
 * was written to since.
 */
export async function copyAll(
  way: CopyWay,
  shops: readonly ShopPlace[],
  making: string,
  before: string | null,
  told: Told,
): Promise<Copied[]> {
  const known = new Set(shops.map(({ database }) => database));
  clearShops(making, (database) => !known.has(database));
  const earlier = copiedSoFar(making);
  const copies: Copied[] = [];
  const copyBy = async (copiers: Copiers, shop: ShopPlace) => {
    // Before the copy: what is written in between makes it anew.
    const stamp = await way.stampOf(shop);
    const found = earlier.get(shop.database);
    const whole = found && found.stamp === stamp && isWhole(making, way.fileOf(shop.database), found.copied);
    const still = whole ? found.copied : null;
    if (!still) clearShops(making, (database) => database === shop.database);
    const copied: Copied = still
      ? { ...still, slug: shop.slug }
      : await copiers.copy({ shop, folder: making, before });
    if (!still && stamp && copied.there && copied.problems.length === 0) keepSoFar(making, { stamp, copied });
    copies[shops.indexOf(shop)] = copied;
    told(copied, {
      done: copies.filter(Boolean).length,
      of: shops.length,
      before: still !== null,
    });
  };
  for (let from = 0; from < shops.length; from += FRESH)
    await copySome(way, shops.slice(from, from + FRESH), copyBy);
  return copies;
}

async function copySome(
  way: CopyWay,
  shops: readonly ShopPlace[],
  copyBy: (copiers: Copiers, shop: ShopPlace) => Promise<void>,
): Promise<void> {
  const copiers = way.begin(shops.length);
  const left = [...shops];
  const lane = async () => {
    try {
      for (let shop = left.shift(); shop; shop = left.shift()) await copyBy(copiers, shop);
    } catch (cause) {
      left.length = 0;
      throw cause;
    }
  };
  try {
    const lanes = Array.from({ length: copiers.atOnce }, lane);
    // Whoever failed takes the folder away: not before the other has ended, too.
    for (const ended of await Promise.allSettled(lanes)) if (ended.status === "rejected") throw ended.reason;
  } finally {
    await copiers.end();
  }
}
