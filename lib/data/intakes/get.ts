import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { feltOpenings } from "@/lib/domain/tuning/feltOpenings";
import { type CylinderLook, PLUGS, ruleOutBefore } from "@/lib/domain/tuning/firstLook";
import type { Observation } from "@/lib/domain/tuning/rideTypes";

const VIEW = {
  id: true,
  bikeId: true,
  at: true,
  staffId: true,
  odometerKm: true,
  complaint: true,
  changedBefore: true,
  fuelUse: true,
  note: true,
  calibrationId: true,
  withdrawnAt: true,
  withdrawnWhy: true,
  version: true,
  job: { select: { id: true, number: true } },
  observations: {
    select: { throttle: true, condition: true, engine: true, sign: true, note: true },
    orderBy: { id: "asc" },
    take: 20,
  },
  cylinders: {
    select: {
      position: true,
      compressionKpa: true,
      leakDownPercent: true,
      intakeClearanceMm: true,
      exhaustClearanceMm: true,
      plug: true,
    },
    orderBy: { position: "asc" },
    take: 8,
  },
} satisfies Prisma.IntakeSelect;

type Row = Prisma.IntakeGetPayload<{ select: typeof VIEW }>;

/** An intake with what follows from it. */
function viewOf({ observations, cylinders, ...row }: Row) {
  const felt = observations as readonly Observation[];
  const looked = cylinders.map((one) => ({
    ...one,
    plug: PLUGS.find((plug) => plug === one.plug) ?? null,
  })) satisfies readonly CylinderLook[];
  return {
    ...row,
    observations: felt,
    cylinders: looked,
    ruleOut: ruleOutBefore(felt, looked),
    /** Where on the curve it was felt lean or rich. */
    marks: feltOpenings(felt).flatMap(({ throttle, sign }) => (sign ? [{ throttle, sign }] : [])),
  };
}
export type IntakeView = ReturnType<typeof viewOf>;

/** One intake of a bike, with who took it; null where there is none. */
export async function getIntake(shop: ShopHandle, bikeId: number, id: number) {
  const row = await shop.read.intake.findFirst({
    where: { id, bikeId },
    select: {
      ...VIEW,
      bike: {
        select: {
          plate: true,
          customer: { select: { name: true } },
          modelCard: { select: { make: true, model: true } },
        },
      },
    },
  });
  if (!row) return null;
  const { bike, ...intake } = row;
  const staff = intake.staffId
    ? await shop.read.staff.findUnique({ where: { id: intake.staffId }, select: { name: true } })
    : null;
  return { ...viewOf(intake), bike, takenBy: staff?.name ?? "" };
}

const PAGE = 30;

/** A bike's intakes, newest first. */
export async function listIntakes(shop: ShopHandle, bikeId: number, after?: number) {
  const rows = await shop.read.intake.findMany({
    where: { bikeId },
    select: {
      id: true,
      at: true,
      odometerKm: true,
      complaint: true,
      withdrawnAt: true,
      job: { select: { id: true, number: true } },
    },
    orderBy: { id: "desc" },
    take: PAGE + 1,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page, next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}

type Reads = Pick<ShopReader, "intake" | "job"> | Pick<ShopTx, "intake" | "job">;

/** The intake that waits for work: the bike's newest that stands, taken since its last job was finished. Null where there is none. */
export async function openIntake(reads: Reads, bikeId: number): Promise<IntakeView | null> {
  const [row, done] = await Promise.all([
    reads.intake.findFirst({
      where: { bikeId, withdrawnAt: null },
      select: VIEW,
      orderBy: { id: "desc" },
    }),
    reads.job.findFirst({
      where: { bikeId, finishedAt: { not: null } },
      select: { finishedAt: true },
      orderBy: { finishedAt: "desc" },
    }),
  ]);
  if (!row || (done?.finishedAt && done.finishedAt >= row.at)) return null;
  return viewOf(row);
}
