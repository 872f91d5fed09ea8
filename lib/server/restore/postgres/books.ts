import { problemsOf } from "@/lib/data/books/invariants";
import { postgresClient } from "@/lib/db/clients";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { SYSTEM } from "@/lib/gate/handle";
import type { FileStore } from "@/lib/outside/fileStore";

/** What does not add up in a shop's schema and pictures, wherever it lies and whatever its name is there. */
export async function booksAt(place: ShopPlace, pictures: FileStore): Promise<string[]> {
  const read = postgresClient("shop", place.server, place.database, "read");
  try {
    const write = () => Promise.reject(new Error("A copy is only read."));
    const { slug, database, server } = place;
    const copy: ShopHandle = { slug, database, server, files: "", read, write, by: SYSTEM, now: new Date() };
    return await problemsOf(copy, pictures);
  } finally {
    await read.$disconnect();
  }
}
