import { directory } from "@/lib/db/directory";
import { closeUnlessUsed, isShopOpen, type ShopHandle } from "@/lib/db/shop";
import { inTurn } from "@/lib/db/turns";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { log, logged } from "@/lib/log/log";

/** Work that is done in every shop, round after round. */
export interface ShopWork<T> {
  readonly name: string;
  /** False: sample shops are left out. No mail leaves them, and their people are in no directory. */
  readonly inSamples?: boolean;
  /** False where a shop has nothing of it to do: asked first, since it costs no write. */
  wanted(shop: ShopHandle): Promise<boolean>;
  run(shop: ShopHandle): Promise<T>;
}

export interface Round<T> {
  /** Shops looked at. */
  readonly shops: number;
  readonly failed: number;
  /** What the shops that had something to do answered. */
  readonly done: readonly T[];
}

const PAGE = 200;
const going = new Set<string>();

/**
 * One round of a work through all shops of the directory, one after the other; null where this process is on such a round.
 * A shop that another process is at is passed over; one that fails is told of in the log and the next is looked at.
 */
export async function eachShop<T>(work: ShopWork<T>, clock: () => Date): Promise<Round<T> | null> {
  if (going.has(work.name)) return null;
  going.add(work.name);
  try {
    return await throughAll(work, clock);
  } finally {
    going.delete(work.name);
  }
}

interface Place {
  readonly id: string;
  readonly slug: string;
  readonly database: string;
}

async function throughAll<T>(work: ShopWork<T>, clock: () => Date): Promise<Round<T>> {
  const done: T[] = [];
  let [shops, failed, after] = [0, 0, ""];
  for (;;) {
    const page: Place[] = await directory().read.shop.findMany({
      where: { closedAt: null, id: { gt: after }, ...(work.inSamples === false ? { sample: false } : {}) },
      select: { id: true, slug: true, database: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const shop of page) {
      shops += 1;
      try {
        const answer = await inShop(shop, work, clock());
        if (answer !== undefined) done.push(answer);
      } catch (cause) {
        failed += 1;
        log().error({ err: cause, shop: shop.slug, work: work.name }, "A round through a shop failed.");
      }
    }
    const last = page.at(-1);
    if (!last || page.length < PAGE) return { shops, failed, done };
    after = last.id;
  }
}

async function inShop<T>(shop: Place, work: ShopWork<T>, now: Date): Promise<T | undefined> {
  const wasOpen = isShopOpen(shop.database);
  const handle = handleFor(shop, SYSTEM, now);
  const opened = performance.now();
  try {
    if (!(await work.wanted(handle))) return undefined;
    return await inTurn(shop.id, work.name, now, () =>
      logged(work.name, { shop: shop.slug }, () => work.run(handle)),
    );
  } finally {
    // Else a round would push the shops that people are in out of the pool.
    if (!wasOpen) await closeUnlessUsed(shop.database, opened);
  }
}
