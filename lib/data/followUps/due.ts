import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { kmPerDay, type OdometerRead, odometerAt, reachedAt } from "@/lib/domain/sheets/odometerRate";

/** By when a distance is probably reached, from the bike's own readings; days of the shop. */
export interface DueByDistance {
  readonly on: string | null;
  readonly early: string | null;
  readonly late: string | null;
  /** Kilometres a day, and the readings it rests on. */
  readonly kmPerDay: number;
  readonly readings: number;
  /** Where the odometer probably stands now. */
  readonly km: number;
}

/** The estimate of a distance; null where the readings are too few to tell, or no distance was set. */
export function dueByDistance(
  readings: readonly OdometerRead[],
  dueKm: number | null,
  zone: string,
  { now }: Pick<ShopHandle, "now">,
): DueByDistance | null {
  if (dueKm === null) return null;
  const rate = kmPerDay(readings);
  if (!rate.known) return null;
  const day = (at: number | null) => (at === null ? null : dayIn(zone, new Date(at)));
  const reached = reachedAt(rate, dueKm);
  return {
    on: day(reached.at),
    early: day(reached.early),
    late: day(reached.late),
    kmPerDay: rate.kmPerDay,
    readings: rate.readings,
    km: odometerAt(rate, now.getTime()).km,
  };
}

/** Why a follow-up is due now: the distance was read, is reached by the estimate, or its day has come. Null: it is not yet. */
export function dueWhy(
  row: { readonly dueOn: string; readonly dueKm: number | null },
  odometerKm: number | null,
  estimate: DueByDistance | null,
  today: string,
): "distance" | "estimate" | "day" | null {
  if (row.dueKm !== null && odometerKm !== null && odometerKm >= row.dueKm) return "distance";
  if (row.dueOn <= today) return "day";
  return row.dueKm !== null && estimate !== null && estimate.km >= row.dueKm ? "estimate" : null;
}
