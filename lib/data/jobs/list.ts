import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import type { JobState } from "@/lib/schemas/jobs";
import { bikeByPlate } from "../bikes/bikeName";
import { rowsMatching } from "../common/narrow";
import { shortOf } from "../stock/shortages";
import { OPEN_WAIT } from "./begun";
import { type OnJob, onJobsNow } from "./time/onNow";

export interface JobQuery {
  readonly state?: JobState | undefined;
  readonly q?: string | undefined;
  /** Id of the last job of the page before. */
  readonly after?: number | undefined;
  readonly take?: number | undefined;
}

const LINE = {
  id: true,
  number: true,
  title: true,
  state: true,
  stopped: true,
  arrivedAt: true,
  minutes: true,
  customer: { select: { name: true } },
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
  bookings: {
    where: { state: { not: "cancelled" } },
    select: { startsAt: true },
    orderBy: { startsAt: "desc" },
    take: 1,
  },
  waits: OPEN_WAIT,
  timeEntries: { select: { startedAt: true, endedAt: true }, orderBy: { id: "asc" }, take: 500 },
  reservations: {
    where: { state: "held" },
    select: { wantedMilli: true, reservedMilli: true, usedMilli: true },
    orderBy: { id: "asc" },
    take: 100,
  },
} satisfies Prisma.JobSelect;

export type JobLine = ReturnType<typeof lineOf> & { readonly on: readonly OnJob[] };

/** Jobs, newest first. */
export async function listJobs(
  shop: ShopHandle,
  query: JobQuery = {},
): Promise<{ jobs: JobLine[]; next: number | null }> {
  const take = query.take ?? 50;
  const rows = await shop.read.job.findMany({
    where: {
      ...(query.state ? { state: query.state } : {}),
      ...(query.after ? { id: { lt: query.after } } : {}),
      AND: [await rowsMatching(shop, "Job", query.q ?? "")],
    },
    select: LINE,
    orderBy: { id: "desc" },
    take: take + 1,
  });
  const shown = rows.slice(0, take);
  const on = await onJobsNow(
    shop,
    shown.filter((row) => row.timeEntries.length > 0).map((row) => row.id),
  );
  const jobs = shown.map((row) => ({
    ...lineOf(row, shop.now),
    /** Who is on it now, or on a break from it. */
    on: on.filter((one) => one.jobId === row.id),
  }));
  return { jobs, next: rows.length > take ? (jobs.at(-1)?.id ?? null) : null };
}

function lineOf(row: Prisma.JobGetPayload<{ select: typeof LINE }>, now: Date) {
  return {
    id: row.id,
    number: row.number,
    title: row.title,
    state: row.state,
    stopped: row.stopped,
    arrivedAt: row.arrivedAt,
    customer: row.customer.name,
    bike: bikeByPlate(row.bike),
    bookedAt: row.bookings[0]?.startsAt.toISOString() ?? null,
    plannedMinutes: row.minutes,
    spentMinutes: spentMinutes(row.timeEntries, now),
    /** What it waits for now. */
    wait: row.waits[0] ?? null,
    shortParts: row.reservations.filter((reservation) => shortOf(reservation) > 0).length,
  };
}

/** Whole minutes spent; what runs counts up to now. */
function spentMinutes(entries: readonly { startedAt: Date; endedAt: Date | null }[], now: Date): number {
  const spent = entries.reduce(
    (sum, entry) => sum + Math.max(0, (entry.endedAt ?? now).getTime() - entry.startedAt.getTime()),
    0,
  );
  return Math.round(spent / 60_000);
}
