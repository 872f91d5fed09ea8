import type { ShopReader } from "@/lib/db/shop";
import type { OdometerRead } from "@/lib/domain/sheets/odometerRate";
import { fetched } from "../common/chunks";

type Reads = Pick<ShopReader, "settingSheet" | "testRide" | "job" | "arrival" | "intake">;

/** Newest readings of each kind that are looked back on, for some bikes together. */
const MOST = 1000;
const KEPT = { not: null } as const;
const newest = { orderBy: { id: "desc" }, take: MOST } as const;

/** Every odometer reading that is kept of these bikes: of sheets, rides, arrivals, jobs and intakes, by bike. */
export async function odometerReads(
  reads: Reads,
  bikeIds: readonly number[],
): Promise<Map<number, OdometerRead[]>> {
  const all = await fetched(bikeIds, async (ids) => {
    const bikeId = { in: ids };
    const [sheets, rides, jobs, arrivals, intakes] = await Promise.all([
      reads.settingSheet.findMany({
        where: { bikeId, odometerKm: KEPT, kind: { not: "target" } },
        select: { bikeId: true, odometerKm: true, takenAt: true },
        ...newest,
      }),
      reads.testRide.findMany({
        where: { job: { bikeId }, odometerKm: KEPT },
        select: { odometerKm: true, at: true, job: { select: { bikeId: true } } },
        ...newest,
      }),
      reads.job.findMany({
        where: { bikeId, odometerKm: KEPT, arrivedAt: KEPT },
        select: { bikeId: true, odometerKm: true, arrivedAt: true },
        ...newest,
      }),
      reads.arrival.findMany({
        where: { bikeId, odometerKm: KEPT },
        select: { bikeId: true, odometerKm: true, at: true },
        ...newest,
      }),
      reads.intake.findMany({
        where: { bikeId, odometerKm: KEPT, withdrawnAt: null },
        select: { bikeId: true, odometerKm: true, at: true },
        ...newest,
      }),
    ]);
    return [
      ...sheets.map((one) => ({ bikeId: one.bikeId, km: one.odometerKm, at: one.takenAt })),
      ...rides.map((one) => ({ bikeId: one.job.bikeId, km: one.odometerKm, at: one.at })),
      ...jobs.map((one) => ({ bikeId: one.bikeId, km: one.odometerKm, at: one.arrivedAt })),
      ...arrivals.map((one) => ({ bikeId: one.bikeId, km: one.odometerKm, at: one.at })),
      ...intakes.map((one) => ({ bikeId: one.bikeId, km: one.odometerKm, at: one.at })),
    ];
  });
  const byBike = new Map<number, OdometerRead[]>();
  for (const { bikeId, km, at } of all)
    if (km !== null && at !== null)
      byBike.set(bikeId, [...(byBike.get(bikeId) ?? []), { km, at: at.getTime() }]);
  return byBike;
}
