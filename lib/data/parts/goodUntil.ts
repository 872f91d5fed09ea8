import type { ShopTx } from "@/lib/db/shop";
import { chunks } from "../common/chunks";

/**
 * Keeps until when a supplier's list is good, on the parts it is the usual supplier of. A list that does not say ends what an
 * older one said of the costs it changes, and leaves it on those it confirms.
 */
export async function keepGoodUntil(
  tx: ShopTx,
  list: { supplierId: number; goodUntil: string | null },
  changed: readonly number[],
  confirmed: readonly number[],
): Promise<void> {
  const { supplierId, goodUntil } = list;
  for (const ids of chunks(goodUntil === null ? changed : [...changed, ...confirmed]))
    await tx.part.updateMany({
      where: { id: { in: ids }, suppliers: { none: { usual: true, supplierId: { not: supplierId } } } },
      data: { priceUntil: goodUntil },
    });
}
