import type { ShopTx } from "@/lib/db/shop";
import { openOf } from "@/lib/domain/stock/orders";
import { PLACED } from "../stock/orderLines";

/** What is on its way of a part. */
export interface Coming {
  /** The job it was ordered for; null for the shelf. */
  jobId: number | null;
  openMilli: number;
  /** The day the supplier named; null while unknown. */
  dueOn: string | null;
  orderNumber: string;
}

/** What is on its way of some parts, by part, the line due first. */
export async function comingOf(
  shop: { readonly read: Pick<ShopTx, "orderLine"> },
  partIds: readonly number[],
): Promise<Map<number, Coming[]>> {
  if (partIds.length === 0) return new Map();
  const rows = await shop.read.orderLine.findMany({
    where: { partId: { in: [...new Set(partIds)] }, order: { state: { in: [...PLACED] } } },
    select: {
      partId: true,
      jobId: true,
      quantityMilli: true,
      receivedMilli: true,
      cancelledMilli: true,
      dueOn: true,
      order: { select: { number: true } },
    },
    orderBy: { id: "asc" },
  });
  const open = rows
    .map((row) => ({
      partId: row.partId,
      jobId: row.jobId,
      openMilli: openOf(row),
      dueOn: row.dueOn,
      orderNumber: row.order.number,
    }))
    .filter((row) => row.openMilli > 0)
    .sort((a, b) => (a.dueOn ?? "9999").localeCompare(b.dueOn ?? "9999"));
  return Map.groupBy(open, (row) => row.partId);
}

/**
 * The day by which what a job is short of will be there: its own lines first, then those of the shelf. "unknown" where a
 * line has no day or its day has passed, null where what is on its way does not reach.
 */
export function expectedOn(
  coming: readonly Coming[],
  jobId: number,
  shortMilli: number,
  today: string,
): string | "unknown" | null {
  const mine = [
    ...coming.filter((line) => line.jobId === jobId),
    ...coming.filter((line) => line.jobId === null),
  ];
  let left = shortMilli;
  let last = "";
  for (const line of mine) {
    if (left <= 0) break;
    if (line.dueOn === null || line.dueOn < today) return "unknown";
    left -= line.openMilli;
    last = line.dueOn > last ? line.dueOn : last;
  }
  return left > 0 ? null : last || null;
}
