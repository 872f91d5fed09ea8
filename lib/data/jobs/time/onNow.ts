import type { ShopHandle } from "@/lib/db/shop";
import { breaksSince } from "./breaks";

/** Somebody who is on a job now: their time runs on it, or they are on a break from it. */
export interface OnJob {
  readonly jobId: number;
  readonly staffId: number;
  readonly name: string;
  readonly since: Date;
  readonly onBreak: boolean;
}

/** Who is on each of some jobs now, those whose time runs first. */
export async function onJobsNow(shop: ShopHandle, jobIds: readonly number[]): Promise<OnJob[]> {
  if (jobIds.length === 0) return [];
  const select = { jobId: true, staffId: true, startedAt: true, staff: { select: { name: true } } } as const;
  const where = { jobId: { in: [...jobIds] }, endedAt: null };
  const [running, breaks] = await Promise.all([
    shop.read.timeEntry.findMany({ where, select, orderBy: { id: "asc" }, take: 60 }),
    shop.read.timeBreak.findMany({
      where: { ...where, startedAt: { gt: breaksSince(shop) } },
      select,
      orderBy: { id: "asc" },
      take: 60,
    }),
  ]);
  const on = (onBreak: boolean) => (row: (typeof running)[number]) => ({
    jobId: row.jobId,
    staffId: row.staffId,
    name: row.staff.name,
    since: row.startedAt,
    onBreak,
  });
  return [...running.map(on(false)), ...breaks.map(on(true))];
}
