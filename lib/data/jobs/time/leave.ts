import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { correctIn } from "./correct";
import { closeIn } from "./end";
import { overran } from "./overrun";
import { runningIn } from "./running";

/**
 * Ends the time and the break of somebody who may work here no longer, now. Time that ran past their shift ends with it, with the
 * reason beside it: they cannot be asked any more, and whoever corrects time can put it right.
 */
export async function endWorkOfIn(tx: ShopTx, shop: ShopHandle, staffId: number): Promise<void> {
  await tx.timeBreak.updateMany({
    where: { staffId, endedAt: null },
    data: { endedAt: shop.now, version: { increment: 1 } },
  });
  const running = await runningIn(tx, staffId);
  if (!running) return;
  const late = await overran(tx, shop, running);
  if (late)
    await correctIn(tx, shop, running, {
      startedAt: running.startedAt,
      endedAt: late.suggestedEnd,
      reason: `Ended with the shift: they may work here no longer; by ${shop.by.name}`,
    });
  else await closeIn(tx, shop, running);
  await audit(tx, shop, "time stopped", "timeEntry", running.id);
}
