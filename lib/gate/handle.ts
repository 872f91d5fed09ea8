import { filesFolder } from "@/lib/db/folders";
import { joinedReads } from "@/lib/db/joined/reads";
import { type Actor, type ShopHandle, shopStore } from "@/lib/db/shop";

/** The only place where a shop's database is obtained: everything else is handed one. */
export function handleFor(shop: { slug: string; database: string }, by: Actor, now: Date): ShopHandle {
  const store = shopStore(shop.database, shop.slug);
  const { slug, database } = shop;
  const files = filesFolder(database);
  const read = joinedReads(store.read, "shop", database);
  return { slug, database, files, read, write: (run) => store.write(run), by, now };
}

/** Acts as the product itself: migrations of data, demo shops, scheduled work. */
export const SYSTEM: Actor = { personId: "system", name: "Throttlewright", role: "system", staffId: null };
