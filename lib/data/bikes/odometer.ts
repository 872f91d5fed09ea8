import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { odometerQuestion } from "@/lib/domain/sheets/odometer";
import { shownDistance } from "@/lib/domain/units/distance";

export interface OdometerReading {
  readonly odometerKm: number | null;
  /** The person has seen the question and says that the reading is right. */
  readonly odometerRight?: boolean | undefined;
}

/**
 * Keeps an odometer reading with its bike. A reading that is lower than the last one, or higher than can be, is asked about
 * first; once the person says that it is right it stands, and the audit trail has both figures.
 */
export async function keepOdometerIn(
  tx: ShopTx,
  shop: ShopHandle,
  bikeId: number,
  { odometerKm, odometerRight = false }: OdometerReading,
): Promise<void> {
  if (odometerKm === null) return;
  const bike = await tx.bike.findUniqueOrThrow({ where: { id: bikeId }, select: { odometerKm: true } });
  const { units } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { units: true } });
  // The same whole mile comes back as up to a kilometre less than what is kept: it is the same reading.
  const read = (km: number) => shownDistance(km, units);
  if (bike.odometerKm !== null && read(bike.odometerKm) === read(odometerKm)) return;
  const before = bike.odometerKm === null ? null : { km: bike.odometerKm, at: await readAt(tx, bikeId) };
  const question = odometerQuestion(odometerKm, before, shop.now.getTime(), units);
  if (question && !odometerRight)
    throw new Refusal(question, "Correct the odometer, or tick that it is right as typed.", {
      odometerKm: question,
      odometerRight: "Tick this if the reading is right, as after a new counter.",
    });
  // The bike's version stays: a reading is no edit, and must not throw out somebody's half-typed form.
  await tx.bike.updateMany({ where: { id: bikeId }, data: { odometerKm } });
  if (question)
    await audit(tx, shop, "odometer confirmed", "bike", bikeId, { from: bike.odometerKm, to: odometerKm });
}

/** When the odometer was last read: with a sheet, a ride, or an arrival. */
async function readAt(tx: ShopTx, bikeId: number): Promise<number | null> {
  const [sheet, ride, job, arrival] = await Promise.all([
    tx.settingSheet.findFirst({
      where: { bikeId, odometerKm: { not: null } },
      select: { takenAt: true },
      orderBy: { id: "desc" },
    }),
    tx.testRide.findFirst({
      where: { job: { bikeId }, odometerKm: { not: null } },
      select: { at: true },
      orderBy: { id: "desc" },
    }),
    tx.job.findFirst({
      where: { bikeId, odometerKm: { not: null } },
      select: { arrivedAt: true },
      orderBy: { id: "desc" },
    }),
    tx.arrival.findFirst({
      where: { bikeId, odometerKm: { not: null } },
      select: { at: true },
      orderBy: { id: "desc" },
    }),
  ]);
  const times = [sheet?.takenAt, ride?.at, job?.arrivedAt, arrival?.at].flatMap((at) =>
    at ? [at.getTime()] : [],
  );
  return times.length === 0 ? null : Math.max(...times);
}
