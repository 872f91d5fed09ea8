import type { ShopReader, ShopTx } from "@/lib/db/shop";
import type { Observation, RideReading } from "@/lib/domain/tuning/rideTypes";
import { settingDef } from "@/lib/domain/tuning/settings";
import { corrections } from "@/lib/domain/tuning/symptoms";
import type { SettingValues } from "@/lib/domain/tuning/targetTypes";
import { type SheetOfJob, type SheetReads, sheetsOfJob } from "../jobs/sheets";

type Reads = SheetReads & (Pick<ShopReader, "bike"> | Pick<ShopTx, "bike">);

/** What a ride's observations point at, given what is fitted: the target, and what was found where the target is silent. */
export async function readingOf(
  reads: Reads,
  job: { id: number; bikeId: number },
  observations: readonly Observation[],
): Promise<RideReading> {
  const [sheets, bike] = await Promise.all([
    sheetsOfJob(reads, job),
    reads.bike.findUniqueOrThrow({
      where: { id: job.bikeId },
      select: { modelCard: { select: { carburettorType: true } } },
    }),
  ]);
  return corrections(observations, {
    settings: settingsOf(sheets.fitted),
    accepted: settingsOf(sheets.asFound?.values ?? []),
    carburettorType: bike.modelCard.carburettorType === "mechanical slide" ? "mechanical" : "cv",
  });
}

/** The settings of the first carburettor: the others are corrected by the same step. */
export function settingsOf(values: SheetOfJob["values"]): SettingValues {
  const first = Math.min(...values.map((value) => value.carburettor));
  return Object.fromEntries(
    values
      .filter((value) => value.carburettor === first && settingDef(value.setting))
      .map((value) => [value.setting, value.value]),
  );
}
