import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** Who has how much of a part. */
export interface ReservedBy {
  jobNumber: string;
  reservedMilli: number;
}

export interface Filled {
  reservationId: number;
  jobId: number;
  jobNumber: string;
  reservedMilli: number;
}

/** What a reservation still wants and does not hold. */
export const shortOf = (of: { wantedMilli: number; reservedMilli: number; usedMilli: number }): number =>
  Math.max(0, of.wantedMilli - of.reservedMilli - of.usedMilli);

/** The two projections every guard of a part's row compares. */
export interface OnShelf {
  id: number;
  onHandMilli: number;
  reservedMilli: number;
}

/** Changes what is reserved of a part, only if its row still says what was read. */
export async function reserveMore(tx: ShopTx, part: OnShelf, byMilli: number): Promise<void> {
  if (byMilli === 0) return;
  await demandOne(
    tx.part.updateMany({
      where: { id: part.id, onHandMilli: part.onHandMilli, reservedMilli: part.reservedMilli },
      data: { reservedMilli: { increment: byMilli } },
    }),
    () => new Refusal("This part's stock has just changed.", "Do it again.", {}, "conflict"),
  );
}

/** The jobs that hold a part, biggest reservation first. */
export async function holdersIn(
  tx: Pick<ShopTx, "reservation" | "job">,
  partId: number,
  butNotJob?: number,
): Promise<ReservedBy[]> {
  const held = await tx.reservation.groupBy({
    by: ["jobId"],
    where: {
      partId,
      state: "held",
      reservedMilli: { gt: 0 },
      ...(butNotJob === undefined ? {} : { jobId: { not: butNotJob } }),
    },
    _sum: { reservedMilli: true },
    orderBy: { jobId: "asc" },
  });
  if (held.length === 0) return [];
  const jobs = await tx.job.findMany({
    where: { id: { in: held.map((row) => row.jobId) } },
    select: { id: true, number: true },
    orderBy: { id: "asc" },
  });
  const sums = new Map(held.map((row) => [row.jobId, row._sum.reservedMilli ?? 0]));
  return jobs
    .map((job) => ({ ...job, reservedMilli: sums.get(job.id) ?? 0 }))
    .sort((a, b) => b.reservedMilli - a.reservedMilli || a.id - b.id)
    .map(({ number, reservedMilli }) => ({ jobNumber: number, reservedMilli }));
}

/** Gives what is free of a part to the jobs that are short of it, oldest job first. */
export async function fillShortagesIn(tx: ShopTx, shop: ShopHandle, partId: number): Promise<Filled[]> {
  const waiting = await tx.reservation.findMany({
    where: { partId, state: "held", wantedMilli: { gt: tx.reservation.fields.reservedMilli } },
    select: {
      id: true,
      jobId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      job: { select: { number: true } },
    },
    orderBy: [{ jobId: "asc" }, { id: "asc" }],
  });
  const short = waiting.filter((reservation) => shortOf(reservation) > 0);
  if (short.length === 0) return [];
  const part = await tx.part.findUniqueOrThrow({
    where: { id: partId },
    select: { id: true, onHandMilli: true, reservedMilli: true },
  });
  let free = part.onHandMilli - part.reservedMilli;
  const filled: Filled[] = [];
  for (const reservation of short) {
    const more = Math.min(free, shortOf(reservation));
    if (more <= 0) break;
    free -= more;
    await tx.reservation.update({
      where: { id: reservation.id },
      data: { reservedMilli: { increment: more }, version: { increment: 1 } },
      select: { id: true },
    });
    filled.push({
      reservationId: reservation.id,
      jobId: reservation.jobId,
      jobNumber: reservation.job.number,
      reservedMilli: more,
    });
  }
  await reserveMore(
    tx,
    part,
    filled.reduce((sum, one) => sum + one.reservedMilli, 0),
  );
  for (const one of filled)
    await audit(tx, shop, "held for a short job", "part", partId, {
      job: one.jobNumber,
      reservedMilli: one.reservedMilli,
    });
  return filled;
}
