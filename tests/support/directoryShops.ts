import { directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";

/** Puts shops into the directory as if they had been opened there. */
export async function putInDirectory(shops: readonly Pick<ShopHandle, "slug" | "database">[]): Promise<void> {
  await migrateAll(() => undefined);
  await directory().write(async (tx) => {
    for (const { slug, database } of shops)
      await tx.shop.create({ data: { id: slug, slug, name: slug, database, createdAt: new Date() } });
  });
}
