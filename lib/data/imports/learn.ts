import type { ShopTx } from "@/lib/db/shop";
import { chunks } from "../common/chunks";
import type { Entry } from "./types";

/** Keeps keys by which files know records from now on. */
export async function learnKeysIn(tx: ShopTx, learned: readonly Entry[]): Promise<void> {
  for (const some of chunks(learned))
    await tx.knownKey.createMany({
      data: some.map(({ noun, nounId, was }) => ({ noun, nounId, key: String(was?.key) })),
    });
}
