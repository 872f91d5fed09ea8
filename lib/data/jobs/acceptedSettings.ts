import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Conditions } from "@/lib/domain/air/conditions";
import { airOf } from "@/lib/domain/air/conditions";
import { ACCEPTED_AT, keptAir } from "@/lib/domain/tuning/ridden";
import { settingDef } from "@/lib/domain/tuning/settings";
import { keepCalibrationIn } from "../bikes/calibrations";
import { conditionsToday } from "../common/air";

/** The air a job is finished in: the shop's altitude in the season of today. */
export async function conditionsIn(tx: ShopTx, shop: ShopHandle): Promise<Conditions & { south: boolean }> {
  const home = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { altitudeM: true, latitudeSouth: true, zone: true },
  });
  return { ...conditionsToday(home, shop.now), south: home.latitudeSouth };
}

/** What was left after a ride that was good all over is kept for the model card as accepted; nothing when it was not ridden so. */
export async function keepAcceptedIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number; number: number },
  values: readonly { carburettor: number; setting: string; value: number }[],
  { south, ...conditions }: Conditions & { south: boolean },
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
    evidence: { kind: "accepted", settings, air: keptAir(airOf(conditions, south)), at: ACCEPTED_AT },
    samples: 0,
    note: `Job ${job.number}, as left.`,
  });
}
