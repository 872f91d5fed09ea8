import { prepareShop } from "@/lib/data/shop/prepare";
import { createShopDatabase } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { few } from "./floor";
import { seed } from "./seed";
import { seedParts } from "./seedParts";

const NOW = new Date("2026-11-25T00:30:00Z");

/** A prepared shop with rates, and nothing else in it. */
export async function preparedShop(database: string): Promise<ShopHandle> {
  await createShopDatabase({ database, server: "" });
  const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, NOW);
  await prepareShop(shop, { name: "Bench shop", country: "AU" });
  await shop.write((tx) =>
    tx.labourGrade.updateMany({ data: { ratePerHourMinor: 10_000, costPerHourMinor: 5_000, rateSet: true } }),
  );
  return shop;
}

/** A shop with `count` customers, bikes, quotes, jobs and parts. */
export interface SizedShop {
  readonly count: number;
  readonly shop: ShopHandle;
}

let made: Promise<readonly [small: SizedShop, big: SizedShop]> | undefined;

/** A small shop and a large one, made once for all parts that ask for them. */
export function benchShops(): Promise<readonly [small: SizedShop, big: SizedShop]> {
  made ??= (async () =>
    [await sized(1_000), await sized(Number(process.env.BENCH_ROWS ?? few(100_000)))] as const)();
  return made;
}

async function sized(count: number): Promise<SizedShop> {
  const shop = await preparedShop(`bench_${count}`);
  seed(shop.database, count);
  seedParts(shop.database, count);
  return { count, shop };
}
