import { noteChange } from "@/lib/db/changes";
import { filesFolder } from "@/lib/db/folders";
import { joinedReads } from "@/lib/db/joined/reads";
import type { ShopPlace } from "@/lib/db/servers";
import { type Actor, type ShopHandle, shopStore } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** The only place where a shop's database is obtained: everything else is handed one. What is written through it is noted for the rounds. */
export function handleFor(shop: ShopPlace, by: Actor, now: Date): ShopHandle {
  const handle = roundHandle(shop, by, now);
  const write: ShopHandle["write"] = async (run) => {
    const answer = await handle.write(run);
    noteChange(shop.database, now);
    return answer;
  };
  return { ...handle, write };
}

/** For the rounds themselves: each of them says what its own writes make due, or they would wake each other for ever. */
export function roundHandle(shop: ShopPlace, by: Actor, now: Date): ShopHandle {
  const store = shopStore(shop);
  const { slug, database, server } = shop;
  const files = filesFolder(database);
  const read = joinedReads(store.read, "shop", database);
  const write: ShopHandle["write"] = (run) =>
    store.write(run).catch((cause: unknown) => {
      throw ownRefusal(cause);
    });
  return { slug, database, server, files, read, write, by, now };
}

/**
 * The server and the built pages of one process have a copy of each class, and share the shops that are open: one that the server opened
 * refuses by the server's Refusal. Answers this copy's.
 */
export function ownRefusal(cause: unknown): unknown {
  if (cause instanceof Refusal || !(cause instanceof Error) || cause.name !== "Refusal") return cause;
  const { message, remedy, fields, kind } = cause as Refusal;
  return new Refusal(message, remedy, fields, kind);
}

/** Acts as the product itself: migrations of data, demo shops, scheduled work. */
export const SYSTEM: Actor = { personId: "system", name: "Throttlewright", role: "system", staffId: null };
