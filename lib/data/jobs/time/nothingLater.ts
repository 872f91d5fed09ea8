import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { clockIn } from "../../common/zone";
import { clockOf } from "./clock";

/** Two requests of one moment may overtake each other by less. */
const SAME_MOMENT_MS = 60_000;

/** Refuses time that a device sends later than it was started, where the person's time ran elsewhere after that moment. */
export async function demandNothingLaterIn(tx: ShopTx, shop: ShopHandle, staffId: number): Promise<void> {
  const then = new Date(shop.now.getTime() + SAME_MOMENT_MS);
  const later = await tx.timeEntry.findFirst({
    where: { staffId, OR: [{ startedAt: { gt: then } }, { endedAt: { gt: then } }] },
    select: { startedAt: true, job: { select: { number: true } } },
    orderBy: { startedAt: "desc" },
  });
  if (!later) return;
  throw new Refusal(
    `Your time has been on job ${later.job.number} since ${clockOf(later.startedAt, await clockIn(tx))}, after this was started.`,
    "Nobody works in two places at once: leave what is there, and correct the job's time if it is wrong.",
    {},
    "conflict",
  );
}
