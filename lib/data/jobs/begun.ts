import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";

/** What a page shows of a wait. */
const WAIT = { id: true, reason: true, untilOn: true, note: true, at: true } as const;

/** The wait that a job is in now. */
export const OPEN_WAIT = {
  where: { endedAt: null },
  select: WAIT,
  orderBy: { id: "desc" },
  take: 1,
} as const;

/** A job waits no longer. */
export async function endWaitIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const { count } = await tx.jobWait.updateMany({
    where: { jobId, endedAt: null },
    data: { endedAt: shop.now },
  });
  if (count > 0) await audit(tx, shop, "waits no longer", "job", jobId);
}

/** Somebody works on a job: it waits for nothing, and who was to go on with it has it. */
export async function begunIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  await endWaitIn(tx, shop, jobId);
  if (shop.by.staffId === null) return;
  await tx.jobHandOver.updateMany({
    where: { jobId, toId: shop.by.staffId, takenAt: null },
    data: { takenAt: shop.now },
  });
}
