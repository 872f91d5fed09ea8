import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Spot } from "@/lib/domain/air/climate";
import type { Conditions } from "@/lib/domain/air/conditions";
import { airOf } from "@/lib/domain/air/conditions";
import { weatherSpot } from "@/lib/domain/air/places";
import { ACCEPTED_AT, keptAir } from "@/lib/domain/tuning/ridden";
import { settingDef } from "@/lib/domain/tuning/settings";
import { keepCalibrationIn } from "../bikes/calibrations";
import { sheetConditions } from "../common/air";
import { modelledOnJob } from "./madeParts";
import { type JobNeedle, needleShapeIn } from "./needles";

/** Conditions, and the spot that what is not measured of them is typical for. */
export type LocalConditions = Conditions & { readonly spot: Spot };

/** The air a job is finished in: typical for the month at the shop. */
export async function conditionsIn(tx: ShopTx, shop: ShopHandle): Promise<LocalConditions> {
  const home = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { altitudeM: true, latitude: true, longitude: true, latitudeSouth: true, zone: true },
  });
  return { ...sheetConditions(home, shop.now), spot: weatherSpot(home) };
}

/** What a job leaves on its bike. */
export interface LeftOnBike {
  readonly values: readonly { carburettor: number; setting: string; value: number }[];
  readonly needles: readonly JobNeedle[];
}

/** What was left after a ride that was good all over is kept for the model card as accepted; nothing when it was not ridden so. */
export async function keepAcceptedIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number; number: string },
  { values, needles }: LeftOnBike,
  { spot, ...conditions }: LocalConditions,
): Promise<void> {
  const ride = await tx.testRide.findFirst({
    where: { jobId: job.id },
    select: { good: true },
    orderBy: { id: "desc" },
  });
  if (!ride?.good) return;
  const first = Math.min(...values.map((v) => v.carburettor));
  const settings = Object.fromEntries(
    values.filter((v) => v.carburettor === first && settingDef(v.setting)).map((v) => [v.setting, v.value]),
  );
  await keepCalibrationIn(tx, shop, {
    bikeId: job.bikeId,
    source: "asLeft",
    jobId: job.id,
    evidence: {
      kind: "accepted",
      settings,
      ...(await needleShapeIn(tx, job.bikeId, needles)),
      ...(await modelledOnJob(tx, job, "fitted")),
      air: keptAir(airOf(conditions, spot)),
      at: ACCEPTED_AT,
    },
    samples: 0,
    note: `Job ${job.number}, as left.`,
  });
}
