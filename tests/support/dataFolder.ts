import { closeSync, openSync, statSync, writeSync } from "node:fs";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import { createShopDatabase, migrateAll } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";

const NOW = new Date("2026-11-25T00:30:00Z");

/** Shops as sign-ups leave them in DATA_DIR: in the directory, each with a database of its own. */
export async function shopsInDirectory(slugs: readonly string[]): Promise<ShopHandle[]> {
  await migrateAll();
  const made: ShopHandle[] = [];
  for (const slug of slugs) {
    await createShopDatabase({ database: slug, server: "" });
    await directory().write((tx) =>
      tx.shop.create({ data: { id: slug, slug, name: `Shop ${slug}`, database: slug, createdAt: NOW } }),
    );
    const owner = { personId: `owner-${slug}`, name: "Test Owner", role: "owner" as const, staffId: null };
    const shop = handleFor({ slug, database: slug, server: "" }, owner, NOW);
    const { staffId } = await prepareShop(shop, { name: `Shop ${slug}`, country: "AU" });
    made.push({ ...shop, by: { ...owner, staffId } });
  }
  return made;
}

/** Overwrites the middle of a file, its head left whole: what a failing disk does. */
export function damageMiddle(file: string): void {
  const { size } = statSync(file);
  const handle = openSync(file, "r+");
  const from = 4096 * 8;
  writeSync(handle, Buffer.alloc(size - from, 0x5a), 0, size - from, from);
  closeSync(handle);
}
