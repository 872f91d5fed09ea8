import { rmSync } from "node:fs";
import { join } from "node:path";
import { eraseShop, shopsToErase } from "@/lib/data/people/eraseShop";
import { exportsFolder } from "@/lib/db/folders";
import { log } from "@/lib/log/log";

/** Erases a shop with the export that is kept of it. False where a database server is away: what is left there goes once it answers. */
export async function eraseWhole(shopId: string, now: Date): Promise<boolean> {
  const { file, wholly } = await eraseShop(shopId, now);
  if (file) rmSync(join(exportsFolder(), file), { force: true });
  return wholly;
}

/** Erases the shops whose days of waiting are over. Answers how many. */
export async function eraseRound(clock: () => Date): Promise<number> {
  const due = await shopsToErase(clock());
  let erased = 0;
  for (const { shopId, slug } of due)
    try {
      const wholly = await eraseWhole(shopId, clock());
      erased += 1;
      if (wholly) log().info({ shop: slug }, "A shop was erased, as its owner asked.");
      else
        log().warn(
          { shop: slug },
          "A shop was erased; what a database server that is away has of it goes later.",
        );
    } catch (cause) {
      log().error(
        { err: cause, shop: slug },
        "A shop that is to be erased is not erased wholly: what is left goes later.",
      );
    }
  return erased;
}
