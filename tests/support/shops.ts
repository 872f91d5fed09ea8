import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inject } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { prepareShop } from "@/lib/data/shop/prepare";
import { createShopDatabase } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { takeSpare } from "./spareSchemas";
import { layTemplate } from "./template";

export interface TwoShops {
  a: ShopHandle;
  b: ShopHandle;
}

let folder: string | undefined;

/** Two prepared shops (AUD with GST in prices; NOK with 25 % on top) on temporary databases of their own. */
export async function twoShops(now = new Date("2026-11-25T00:30:00Z")): Promise<TwoShops> {
  if (!folder) {
    folder = mkdtempSync(join(tmpdir(), "throttlewright-test-"));
    reconfigure({ DATA_DIR: folder, SHOPS_OPEN: "4" });
    layTemplate(inject("shopTemplate"), folder);
  }
  const stamp = `${process.pid}_${++made}`;
  return { a: await prepared(`a_${stamp}`, "AU", now), b: await prepared(`b_${stamp}`, "NO", now) };
}

let made = 0;

async function prepared(database: string, country: string, now: Date): Promise<ShopHandle> {
  if (!(await takeSpare(database))) await createShopDatabase({ database, server: "" });
  const owner = { personId: `owner-${database}`, name: "Test Owner", role: "owner" as const, staffId: null };
  const shop = handleFor({ slug: database, database, server: "" }, owner, now);
  const { staffId } = await prepareShop(shop, { name: `Shop ${database}`, country });
  await enterRate(shop);
  return { ...shop, by: { ...owner, staffId } };
}

/** What a new shop does before its first quote: it enters its rate, 100.00 an hour at a cost of 50.00. */
export async function enterRate(shop: ShopHandle): Promise<void> {
  await shop.write((tx) =>
    tx.labourGrade.updateMany({
      data: { ratePerHourMinor: 10_000, costPerHourMinor: 5_000, rateSet: true },
    }),
  );
}

/** The same shop at another time, or as another person. */
export function as(shop: ShopHandle, change: Partial<Pick<ShopHandle, "now" | "by">>): ShopHandle {
  return { ...shop, ...change };
}

/** Takes away the folder of a test file's shops: the next file makes one of its own. */
export function removeShopFolder(): void {
  if (folder) rmSync(folder, { recursive: true, force: true });
  folder = undefined;
}
