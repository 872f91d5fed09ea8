import { rmSync } from "node:fs";
import { join } from "node:path";
import { eraseShop, shopsToErase } from "@/lib/data/people/eraseShop";
import { exportsFolder } from "@/lib/db/folders";
import { log } from "@/lib/log/log";

/** Erases a shop with the export that is kept of it. */
export async function eraseWhole(shopId: string, now: Date): Promise<void> {
  const file = await eraseShop(shopId, now);
  if (file) rmSync(join(exportsFolder(), file), { force: true });
}

/** Erases the shops whose days of waiting are over. Answers how many. */
export async function eraseRound(clock: () => Date): Promise<number> {
  const due = await shopsToErase(clock());
  for (const { shopId, slug } of due) {
    await eraseWhole(shopId, clock());
    log().info({ shop: slug }, "A shop was erased, as its owner asked.");
  }
  return due.length;
}
