import type { Prisma } from "./generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "./shop";

/** Appends to the shop's audit trail, in the transaction of what it tells. */
export async function audit(
  tx: ShopTx,
  shop: ShopHandle,
  act: string,
  noun: string,
  nounId: number | null,
  detail?: Prisma.InputJsonValue,
): Promise<void> {
  await tx.auditEntry.create({
    data: {
      at: shop.now,
      personId: shop.by.personId,
      personName: shop.by.name,
      act,
      noun,
      nounId,
      ...(detail === undefined ? {} : { detail }),
    },
    select: { id: true },
  });
}

/** The next number of a gapless series: taken in the transaction that uses it. */
export async function nextNumber(tx: ShopTx, name: string, first = 1): Promise<number> {
  const row = await tx.counter.upsert({
    where: { name },
    create: { name, next: first + 1 },
    update: { next: { increment: 1 } },
    select: { next: true },
  });
  return row.next - 1;
}
