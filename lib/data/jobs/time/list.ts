import type { ShopHandle } from "@/lib/db/shop";
import { localField } from "./clock";
import { entryOf, overrunOf } from "./overrun";

export interface RunningEntry {
  readonly id: number;
  readonly version: number;
  readonly jobId: number;
  readonly jobNumber: string;
  readonly stepId: number | null;
  readonly step: string;
  readonly staff: string;
  readonly own: boolean;
  readonly startedAt: string;
  /** Set when it was forgotten: fields as a datetime-local control holds them. */
  readonly forgotten: { readonly startedField: string; readonly endField: string } | null;
}

/** Whose time runs now, on which step; what was forgotten says when it probably ended. */
export async function listRunning(shop: ShopHandle): Promise<RunningEntry[]> {
  const rows = await shop.read.timeEntry.findMany({
    where: { endedAt: null },
    select: {
      id: true,
      version: true,
      staffId: true,
      jobId: true,
      stepId: true,
      startedAt: true,
      endedAt: true,
      staff: { select: { name: true } },
      step: { select: { name: true } },
      job: { select: { number: true } },
    },
    orderBy: { id: "desc" },
    take: 20,
  });
  const {
    clock: { zone },
    forgotten,
  } = await overrunOf(shop.read, shop, rows.map(entryOf));
  return rows.map((row) => {
    const late = forgotten.find((one) => one.entry.id === row.id);
    return {
      id: row.id,
      version: row.version,
      jobId: row.jobId,
      jobNumber: row.job.number,
      stepId: row.stepId,
      step: row.step?.name ?? "",
      staff: row.staff.name,
      own: row.staffId === shop.by.staffId,
      startedAt: row.startedAt.toISOString(),
      forgotten: late
        ? {
            startedField: localField(row.startedAt, zone),
            endField: localField(new Date(late.suggestedEnd), zone),
          }
        : null,
    };
  });
}

/** One entry for its correction form. */
export async function getTimeEntry(shop: ShopHandle, id: number) {
  const [row, { zone }] = await Promise.all([
    shop.read.timeEntry.findUnique({
      where: { id },
      select: {
        id: true,
        version: true,
        staffId: true,
        jobId: true,
        stepId: true,
        startedAt: true,
        endedAt: true,
        reason: true,
        staff: { select: { name: true } },
        step: { select: { name: true } },
        job: { select: { number: true, state: true } },
        corrections: {
          select: { id: true, at: true, reason: true, fromStarted: true, fromEnded: true, staffId: true },
          orderBy: { id: "asc" },
          take: 20,
        },
      },
    }),
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } }),
  ]);
  if (!row) return null;
  const { forgotten } = await overrunOf(shop.read, shop, [entryOf(row)]);
  const end = row.endedAt ?? (forgotten[0] ? new Date(forgotten[0].suggestedEnd) : shop.now);
  return {
    id: row.id,
    version: row.version,
    jobId: row.jobId,
    jobNumber: row.job.number,
    closed: row.job.state === "closed",
    staff: row.staff.name,
    own: row.staffId === shop.by.staffId,
    step: row.step?.name ?? "",
    reason: row.reason,
    /** What stood there before each correction, oldest first. */
    corrections: row.corrections,
    running: row.endedAt === null,
    forgotten: forgotten.length > 0,
    startedField: localField(row.startedAt, zone),
    endField: localField(end, zone),
  };
}
