import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { quantityText } from "@/lib/schemas/quantity";
import { recordMoveIn } from "../stock/moves";
import { useReservedIn } from "../stock/reservations";
import { shortOf } from "../stock/shortages";
import { jobIn } from "./states";

/** One tap: so much of a part for a job in work, out of its reservation or, without one, out of what is free. */
export interface OneTap {
  readonly partId: number;
  readonly jobId: number;
  readonly job: string;
  readonly title: string;
  readonly reservationId: number | null;
  readonly quantityMilli: number;
}

interface PartHere {
  readonly id: number;
  readonly unit: string;
  readonly onHandMilli: number;
  readonly reservedMilli: number;
}

const ON_THE_STAND = ["inWork", "ride"] as const;

/** Pieces go one at a time, what is measured goes as reserved. */
export const tapOf = (unit: string, reservedMilli: number): number =>
  unit === "each" ? Math.min(1000, reservedMilli) : reservedMilli;

/**
 * What can be used of these parts in one tap, the job whose time runs for whoever looks first: what jobs in work
 * hold, and a free piece for one's own job that holds none.
 */
export async function oneTaps(shop: ShopHandle, parts: readonly PartHere[]): Promise<Map<number, OneTap[]>> {
  const ids = parts.map((part) => part.id);
  if (ids.length === 0) return new Map();
  const [reservations, running] = await Promise.all([
    shop.read.reservation.findMany({
      where: {
        partId: { in: ids },
        state: "held",
        reservedMilli: { gt: 0 },
        job: { state: { in: [...ON_THE_STAND] } },
      },
      select: {
        id: true,
        partId: true,
        jobId: true,
        reservedMilli: true,
        job: { select: { number: true, title: true } },
      },
      orderBy: [{ jobId: "asc" }, { id: "asc" }],
    }),
    shop.read.timeEntry.findFirst({
      where: {
        endedAt: null,
        staffId: shop.by.staffId ?? 0,
        job: { state: { in: [...ON_THE_STAND] } },
      },
      select: { jobId: true, job: { select: { number: true, title: true } } },
      orderBy: { id: "desc" },
    }),
  ]);
  const taps = new Map<number, OneTap[]>();
  for (const part of parts) {
    const own: OneTap[] = reservations
      .filter((row) => row.partId === part.id)
      .map((row) => ({
        partId: part.id,
        jobId: row.jobId,
        job: row.job.number,
        title: row.job.title,
        reservationId: row.id,
        quantityMilli: tapOf(part.unit, row.reservedMilli),
      }));
    const free = part.onHandMilli - part.reservedMilli;
    const mine = running && own.some((tap) => tap.jobId === running.jobId);
    if (running && !mine && part.unit === "each" && free >= 1000)
      own.push({
        partId: part.id,
        jobId: running.jobId,
        job: running.job.number,
        title: running.job.title,
        reservationId: null,
        quantityMilli: 1000,
      });
    taps.set(
      part.id,
      own.sort((a, b) => Number(b.jobId === running?.jobId) - Number(a.jobId === running?.jobId)),
    );
  }
  return taps;
}

/** The jobs going on that are short of these parts, by part. */
export async function shortJobs(
  shop: ShopHandle,
  partIds: readonly number[],
): Promise<Map<number, string[]>> {
  const rows = await shop.read.reservation.findMany({
    where: {
      partId: { in: [...partIds] },
      state: "held",
      wantedMilli: { gt: shop.read.reservation.fields.reservedMilli },
      job: { state: { in: ["waiting", "booked", ...ON_THE_STAND] } },
    },
    select: {
      partId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      job: { select: { number: true } },
    },
    orderBy: [{ jobId: "asc" }, { id: "asc" }],
  });
  const short = new Map<number, string[]>();
  for (const row of rows) {
    const jobs = short.get(row.partId) ?? [];
    if (shortOf(row) > 0 && !jobs.includes(row.job.number)) short.set(row.partId, [...jobs, row.job.number]);
  }
  return short;
}

export interface UseForJob {
  readonly partId: number;
  readonly jobId: number;
  readonly quantityMilli: number;
  readonly key?: string | undefined;
}

/** Uses a part for a job in work: out of its own reservation as far as that goes, else out of what is free. */
export async function useForJob(shop: ShopHandle, input: UseForJob): Promise<{ moveId: number }> {
  const { partId, jobId, quantityMilli } = input;
  return shop.write(async (tx) => ({
    moveId: await once(tx, shop, "used a part for a job", input, async () => {
      const job = await jobIn(tx, jobId);
      if (!ON_THE_STAND.some((state) => state === job.state))
        throw new Refusal(
          `Job ${job.number} is not in work.`,
          "Start work on it first, or use the part without a job.",
          {},
          "conflict",
        );
      const reservation = await tx.reservation.findFirst({
        where: { jobId, partId, state: "held", reservedMilli: { gte: quantityMilli } },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      const { moveId } = reservation
        ? // biome-ignore lint/correctness/useHookAtTopLevel: as above
          await useReservedIn(tx, shop, { reservationId: reservation.id, quantityMilli })
        : await recordMoveIn(tx, shop, { partId, kind: "use", quantityMilli, jobId });
      return moveId;
    }),
  }));
}

/** What is left of a part, said after a use: "RM-122.5: none left", "RM-122.5: 2 left". */
export async function leftText(shop: ShopHandle, partId: number): Promise<string> {
  const part = await shop.read.part.findUnique({
    where: { id: partId },
    select: { code: true, unit: true, onHandMilli: true },
  });
  if (!part) return "";
  return `${part.code}: ${part.onHandMilli === 0 ? "none" : quantityText(part.onHandMilli, part.unit)} left.`;
}
