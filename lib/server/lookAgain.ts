import { keepLookedAt, keepLooks, type ShopToLookAt, takeLongUnseen } from "@/lib/db/due";
import type { ShopHandle } from "@/lib/db/shop";
import { log } from "@/lib/log/log";
import { inShop, lookIn, type ShopWork, wakeSending } from "./eachShop";

type Told = (work: ShopWork<unknown>, answer: unknown) => void;

/**
 * Looks with all works at some shops that were not looked at for a day, whatever the directory says is due: a stop may have come
 * between a commit in a shop and the directory being told of it. Answers how many shops it took up; what works answered that had
 * something to do is told to `told`.
 */
export async function lookAgain(
  works: readonly ShopWork<unknown>[],
  clock: () => Date,
  most: number,
  told: Told = () => undefined,
): Promise<number> {
  const names = works.map(({ name }) => name);
  const taken = await takeLongUnseen(clock(), names, most);
  for (const shop of taken) {
    try {
      const well = await inShop(shop, clock(), async (handle) => {
        let all = true;
        for (const work of works)
          if (!shop.sample || work.inSamples !== false)
            all = (await lookWith(shop, { ...handle, now: clock() }, work, told)) && all;
        return all;
      });
      if (well) await keepLookedAt(shop.id, clock());
    } catch (cause) {
      failed(shop, "all", cause);
    }
  }
  return taken.length;
}

/** False where it failed: the shop is then looked at again sooner than in a day. */
async function lookWith<T>(
  shop: ShopToLookAt,
  handle: ShopHandle,
  work: ShopWork<T>,
  told: Told,
): Promise<boolean> {
  try {
    const seen = { ...shop, looks: shop.looked.get(work.name) ?? 0 };
    const { look, ran } = await lookIn(seen, handle, work);
    if (ran) told(work, ran.answer);
    if (look) await keepLooks([look]);
    return true;
  } catch (cause) {
    if (work.mailed) await wakeSending(shop.id, handle.now);
    failed(shop, work.name, cause);
    return false;
  }
}

function failed(shop: ShopToLookAt, work: string, cause: unknown): void {
  log().error({ err: cause, shop: shop.slug, work }, "A look at a shop failed.");
}
