import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { overran } from "./overrun";

/** What is read of a running entry to be ended. */
export const RUNNING = {
  id: true,
  staffId: true,
  jobId: true,
  stepId: true,
  startedAt: true,
  endedAt: true,
  version: true,
} as const;

export type Running = NonNullable<Awaited<ReturnType<typeof runningIn>>>;

export async function runningIn(tx: Pick<ShopTx, "timeEntry">, staffId: number) {
  return tx.timeEntry.findFirst({
    where: { staffId, endedAt: null },
    select: RUNNING,
    orderBy: { startedAt: "desc" },
  });
}

/**
 * The entry of whoever acts that ran past the shift, so that ending it is to be asked about first; null where none did, or where the
 * act leaves it running.
 */
export async function askedFirst(
  shop: ShopHandle,
  keeps?: { jobId: number; stepId?: number | undefined },
): Promise<number | null> {
  if (shop.by.staffId === null) return null;
  const running = await runningIn(shop.read, shop.by.staffId);
  if (!running || (running.jobId === keeps?.jobId && running.stepId === (keeps?.stepId ?? null))) return null;
  return (await overran(shop.read, shop, running)) ? running.id : null;
}

/** The staff row of whoever acts; someone without one records no time. */
export function whoWorks(shop: ShopHandle): number {
  if (shop.by.staffId !== null) return shop.by.staffId;
  throw new Refusal(
    "You are not among this shop's people, so your time cannot be recorded.",
    "Ask an owner to add you.",
    {},
    "forbidden",
  );
}
