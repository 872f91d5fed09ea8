import { directory } from "@/lib/db/directory";
import {
  type DueShop,
  dueShops,
  type KnownWork,
  keepLooks,
  type Look,
  makeDueIn,
  SENDING,
} from "@/lib/db/due";
import { serverFault, whileUsable } from "@/lib/db/serverFaults";
import type { ShopPlace } from "@/lib/db/servers";
import { closeUnlessUsed, isShopOpen, type ShopHandle, shutFor } from "@/lib/db/shop";
import { ShopShut } from "@/lib/db/shopFaults";
import { inTurn } from "@/lib/db/turns";
import { roundHandle, SYSTEM } from "@/lib/gate/handle";
import { log, logged } from "@/lib/log/log";

/** Work that is done in every shop, round after round. */
export interface ShopWork<T> {
  readonly name: string;
  /** False: sample shops are left out. No mail leaves them, and their people are in no directory. */
  readonly inSamples?: boolean;
  /** Goes up where the work comes to other answers than before, as of a new version: every shop is looked at anew. */
  readonly basis?: number;
  /** Whether what was done has queued mail. */
  mailed?(done: T): boolean;
  /** False where a shop has nothing of it to do: asked first, since it costs no write. */
  wanted(shop: ShopHandle): Promise<boolean>;
  run(shop: ShopHandle): Promise<T>;
  /**
   * When it may be due next if nothing is written in the shop meanwhile; null for never. Too early a date costs a look, too late a
   * one is late. `done`: what `run` answered, null where it was not wanted.
   */
  next(shop: ShopHandle, done: T | null): Promise<Date | null>;
}

export interface Round<T> {
  /** Shops looked at. */
  readonly shops: number;
  readonly failed: number;
  /** What the shops that had something to do answered. */
  readonly done: readonly T[];
}

const known = <T>({ name, basis = 1, inSamples = true }: ShopWork<T>): KnownWork => ({
  name,
  basis,
  inSamples,
});

const PAGE = 50;
const going = new Set<string>();

/**
 * One round of a work through the shops in which it is due, one after the other; null where this process is on such a round.
 * A shop that another process is at is passed over; one that fails is told of in the log and the next is looked at.
 */
export async function eachShop<T>(work: ShopWork<T>, clock: () => Date): Promise<Round<T> | null> {
  if (going.has(work.name)) return null;
  going.add(work.name);
  try {
    return await throughDue(work, clock);
  } finally {
    going.delete(work.name);
  }
}

async function throughDue<T>(work: ShopWork<T>, clock: () => Date): Promise<Round<T>> {
  const done: T[] = [];
  let [shops, failed, after] = [0, 0, ""];
  for (;;) {
    const page = await dueShops(known(work), clock(), after, PAGE);
    const looks: Look[] = [];
    for (const shop of page) {
      shops += 1;
      try {
        const { look, ran } = await inShop(shop, clock(), (handle) => lookIn(shop, handle, work));
        if (look) looks.push(look);
        if (ran) done.push(ran.answer);
      } catch (cause) {
        failed += 1;
        if (work.mailed) await wakeSending(shop.id, clock());
        log().error({ err: cause, shop: shop.slug, work: work.name }, "A round through a shop failed.");
      }
    }
    await keepLooks(looks);
    const last = page.at(-1);
    if (!last || page.length < PAGE) return { shops, failed, done };
    after = last.id;
  }
}

/** What was queued before a failure is sent all the same. */
export async function wakeSending(shopId: string, at: Date): Promise<void> {
  await directory().write((tx) => makeDueIn(tx, shopId, SENDING, at));
}

interface Found<T> {
  /** What is to be kept; null where another process is at it, which keeps what it finds. */
  readonly look: Look | null;
  readonly ran: { readonly answer: T } | null;
}

/** Looks whether a work has something to do in a shop, does it, and says when it is to look again. */
export async function lookIn<T>(shop: DueShop, handle: ShopHandle, work: ShopWork<T>): Promise<Found<T>> {
  const { now } = handle;
  const wanted = await work.wanted(handle);
  const ran = wanted
    ? await inTurn(shop.id, work.name, now, () =>
        logged(work.name, { shop: shop.slug }, async () => ({ answer: await work.run(handle) })),
      )
    : null;
  if (ran === undefined) return { look: null, ran: null };
  const next = await work.next(handle, ran ? ran.answer : null);
  const wakes = ran && work.mailed?.(ran.answer) ? SENDING : undefined;
  return { look: { shop, work: known(work), at: now, next, wakes }, ran };
}

/** Runs `run` with a shop's handle, and leaves the shop open only where it was: else rounds would push those that people are in out of the pool. */
export async function inShop<T>(
  shop: ShopPlace,
  now: Date,
  run: (handle: ShopHandle) => Promise<T>,
): Promise<T> {
  // A round does not wait for a server that has gone, shop after shop.
  const away = await serverFault(shop.server);
  if (away) {
    shutFor(shop, away);
    throw new ShopShut();
  }
  const wasOpen = isShopOpen(shop.database);
  const handle = roundHandle(shop, SYSTEM, now);
  const opened = performance.now();
  try {
    if (shop.server === "") return await run(handle);
    const ended = await whileUsable(shop.server, () => run(handle));
    if ("answer" in ended) return ended.answer;
    shutFor(shop, ended.fault);
    throw new ShopShut();
  } finally {
    if (!wasOpen) await closeUnlessUsed(shop.database, opened);
  }
}
