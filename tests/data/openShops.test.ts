import { afterEach, beforeAll, expect, it } from "vitest";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { createShopDatabase } from "@/lib/db/migrate";
import {
  closeIdleShops,
  closeShops,
  isShopOpen,
  openShopCount,
  type ShopHandle,
  shopStore,
} from "@/lib/db/shop";
import { shopsFitting } from "@/lib/db/shopsThatFit";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeAll(async () => {
  ({ a, b } = await twoShops());
});
afterEach(() => reconfigure({ SHOPS_QUIET_MS: undefined, SHOPS_IDLE_MS: undefined }));

const used = (name: string) => shopStore({ slug: name, database: name, server: "" }).read.bay.count();

it("keeps open what was used just now, but never more than twice what may be open", async () => {
  await closeShops();
  const names = Array.from({ length: 11 }, (_, n) => `just_${process.pid}_${n}`);
  for (const name of names) await createShopDatabase({ database: name, server: "" });
  reconfigure({ SHOPS_QUIET_MS: "3600000" });
  for (const name of names.slice(0, 7)) await used(name);
  expect(openShopCount()).toBe(7);
  for (const name of names) await used(name);
  expect(configuration().SHOPS_OPEN).toBe(4);
  expect(names.filter(isShopOpen)).toEqual(names.slice(3));
});

it("closes a shop that nobody used for a while, and its handle opens it again", async () => {
  await closeShops();
  await used(a.database);
  await used(b.database);
  const { SHOPS_IDLE_MS: idleMs } = configuration();
  closeIdleShops(performance.now() + idleMs - 1_000);
  expect([isShopOpen(a.database), isShopOpen(b.database)]).toEqual([true, true]);
  // A write is never cut off for it.
  const [begun, mayEnd] = [Promise.withResolvers<void>(), Promise.withResolvers<void>()];
  const writing = shopStore(b).write(async (tx) => {
    begun.resolve();
    await mayEnd.promise;
    return tx.bay.count();
  });
  await begun.promise;
  closeIdleShops(performance.now() + idleMs + 1_000);
  expect([isShopOpen(a.database), isShopOpen(b.database)]).toEqual([false, true]);
  mayEnd.resolve();
  expect(await writing).toBe(1);
  expect(await a.read.bay.count()).toBe(1);
});

it("lets as many shops be open as a quarter of the memory meant for the process has room for", () => {
  const gib = 2 ** 30;
  expect(shopsFitting(gib / 2, gib / 2)).toBe(16);
  expect(shopsFitting(2 * gib, 4 * gib)).toBe(64);
  expect(shopsFitting(16 * gib, gib / 2)).toBe(32);
  expect(shopsFitting(gib / 16, gib)).toBe(8);
  expect(shopsFitting(512 * gib, 64 * gib)).toBe(500);
});
