import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";

/** Tells the directory that a customer was erased, by their number alone: an older copy of the shop that is put back does not know it. */
export async function noteErased(shop: ShopHandle, customerId: number): Promise<void> {
  const { database, now: at } = shop;
  const found = await directory().read.shop.findUnique({ where: { database }, select: { id: true } });
  if (!found) return;
  await directory().write((tx) =>
    tx.erasedCustomer.upsert({
      where: { shopId_customerId: { shopId: found.id, customerId } },
      create: { shopId: found.id, customerId, at },
      update: { at },
      select: { customerId: true },
    }),
  );
}
