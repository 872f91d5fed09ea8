import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import type { TimeEntry } from "@/lib/domain/labour/entries";
import { forgottenEntries } from "@/lib/domain/labour/forgotten";
import { dayAfter, dayOf } from "@/lib/domain/schedule/localTime";
import type { WeeklyHours, WorkingTime } from "@/lib/domain/schedule/working";
import { type Clock, clockIn } from "../../common/zone";

type Reads =
  | Pick<ShopTx, "settings" | "staff" | "closure">
  | Pick<ShopReader, "settings" | "staff" | "closure">;

/** What is read of a time entry to be counted. */
export const ENTRY = {
  id: true,
  staffId: true,
  jobId: true,
  stepId: true,
  startedAt: true,
  endedAt: true,
} as const;

/** A row as the labour rules count it. */
export function entryOf(row: {
  id: number;
  staffId: number;
  jobId: number;
  stepId: number | null;
  startedAt: Date;
  endedAt: Date | null;
}): TimeEntry {
  const { id, staffId, jobId, stepId } = row;
  return {
    id,
    staffId,
    jobId,
    stepId,
    startedAt: row.startedAt.getTime(),
    endedAt: row.endedAt?.getTime() ?? null,
  };
}

/** The running entries that went on past their people's shifts, with the end to suggest and the shop's clock. */
export async function overrunOf(
  reads: Reads,
  shop: ShopHandle,
  entries: readonly TimeEntry[],
): Promise<{ clock: Clock; forgotten: ReturnType<typeof forgottenEntries> }> {
  const clock = await clockIn(reads as Pick<ShopTx, "settings">);
  const { zone } = clock;
  if (entries.length === 0) return { clock, forgotten: [] };
  const first = dayOf(Math.min(...entries.map((entry) => entry.startedAt)), zone);
  const last = dayAfter(dayOf(shop.now.getTime(), zone));
  const spell = { fromDay: { lte: last }, toDay: { gte: first } };
  const days = { fromDay: true, toDay: true } as const;
  const [people, closures] = await Promise.all([
    reads.staff.findMany({
      where: { id: { in: entries.map((entry) => entry.staffId) } },
      select: {
        id: true,
        hours: true,
        absences: { where: spell, select: days, orderBy: { id: "asc" }, take: 50 },
      },
      orderBy: { id: "asc" },
    }),
    reads.closure.findMany({ where: spell, select: days, orderBy: { id: "asc" }, take: 100 }),
  ]);
  const working = (staffId: number): WorkingTime => {
    const person = people.find((one) => one.id === staffId);
    return { hours: (person?.hours ?? {}) as WeeklyHours, closures, absences: person?.absences ?? [], zone };
  };
  return { clock, forgotten: forgottenEntries(entries, working, shop.now.getTime()) };
}

/** Whether one running entry was forgotten. */
export async function overran(
  reads: Reads,
  shop: ShopHandle,
  row: Parameters<typeof entryOf>[0],
): Promise<{ suggestedEnd: Date; zone: string } | null> {
  const { clock, forgotten } = await overrunOf(reads, shop, [entryOf(row)]);
  const found = forgotten[0];
  return found ? { suggestedEnd: new Date(found.suggestedEnd), zone: clock.zone } : null;
}
