import { problemsOf } from "@/lib/data/books/invariants";
import type { ShopHandle } from "@/lib/db/shop";
import type { FileStore } from "@/lib/outside/fileStore";

/** What does not add up in a shop that was brought in. Pictures that were missing before are no reason to refuse it. */
export async function problemsIn(
  shop: ShopHandle,
  store: FileStore,
  picturesWereMissing: boolean,
): Promise<string[]> {
  return problemsOf(shop, picturesWereMissing ? undefined : store);
}
