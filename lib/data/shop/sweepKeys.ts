import type { ShopHandle } from "@/lib/db/shop";
import { chunks } from "../common/chunks";

/** A form may be sent again for so long and is answered as before; one that was open for longer is done anew. */
const KEPT_DAYS = 30;
/** What one round takes at most; the next takes the rest. */
const A_ROUND = 2_000;

const before = (shop: ShopHandle) => new Date(shop.now.getTime() - KEPT_DAYS * 86_400_000);

/** Whether there are keys of requests that are kept no longer. */
export async function hasOldKeys(shop: ShopHandle): Promise<boolean> {
  const old = await shop.read.once.findFirst({
    where: { at: { lt: before(shop) } },
    select: { key: true },
    orderBy: { at: "asc" },
  });
  return old !== null;
}

/** Forgets the keys of requests that were carried out long ago, some at a time. Answers how many. */
export async function sweepKeys(shop: ShopHandle): Promise<number> {
  const old = await shop.read.once.findMany({
    where: { at: { lt: before(shop) } },
    select: { key: true },
    orderBy: { at: "asc" },
    take: A_ROUND,
  });
  let gone = 0;
  for (const some of chunks(old))
    gone += await shop.write(async (tx) => {
      const { count } = await tx.once.deleteMany({ where: { key: { in: some.map((row) => row.key) } } });
      return count;
    });
  return gone;
}

/** When the oldest key is kept no longer; null where there is none. */
export async function nextKeySweep(shop: ShopHandle): Promise<Date | null> {
  const oldest = await shop.read.once.findFirst({ select: { at: true }, orderBy: { at: "asc" } });
  return oldest && new Date(oldest.at.getTime() + KEPT_DAYS * 86_400_000);
}
