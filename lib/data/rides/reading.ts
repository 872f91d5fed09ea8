import type { ShopReader, ShopTx } from "@/lib/db/shop";
import type { Observation, RideReading } from "@/lib/domain/tuning/rideTypes";
import { settingDef } from "@/lib/domain/tuning/settings";
import { corrections } from "@/lib/domain/tuning/symptoms";
import type { SettingValues } from "@/lib/domain/tuning/targetTypes";
import { needlesOfJob } from "../jobs/needles";
import { type SheetOfJob, type SheetReads, sheetsOfJob } from "../jobs/sheets";
import { shimsInDrawer } from "../jobs/stepTargets";
import { freeJets } from "./jets";
import { triedOn } from "./tried";

type Tables = "bike" | "job" | "part" | "quoteRevision" | "correction" | "settingSheet";
type Reads = SheetReads & (Pick<ShopReader, Tables> | Pick<ShopTx, Tables>);

/** What a ride's observations point at, given what is fitted and what this bike and the drawer let be changed. */
export async function readingOf(
  reads: Reads,
  job: { id: number; bikeId: number },
  observations: readonly Observation[],
): Promise<RideReading> {
  const [sheets, bike, needles, shims, tried] = await Promise.all([
    sheetsOfJob(reads, job),
    reads.bike.findUniqueOrThrow({
      where: { id: job.bikeId },
      select: {
        modelCard: {
          select: {
            carburettorType: true,
            facts: {
              where: { key: { in: ["needleClips", "springFreeMm", "deliveredSpringLengthMm"] } },
              select: { key: true, value: true },
              orderBy: { key: "asc" },
            },
          },
        },
      },
    }),
    needlesOfJob(reads, job),
    shimsInDrawer(reads),
    triedOn(reads, job.bikeId),
  ]);
  const { carburettorType, facts } = bike.modelCard;
  const fact = (key: string) => facts.find((one) => one.key === key)?.value ?? undefined;
  const settings = settingsOf(sheets.fitted);
  const jets = {
    mainJet: await freeJets(reads, job.id, "mainJet", settings.mainJet),
    pilotJet: await freeJets(reads, job.id, "pilotJet", settings.pilotJet),
  };
  return corrections(observations, {
    settings,
    accepted: settingsOf(sheets.asFound?.values ?? []),
    carburettorType: carburettorType === "mechanical slide" ? "mechanical" : "cv",
    grooves: needles[0]?.fitted?.record.grooves ?? fact("needleClips"),
    shims,
    jets: Object.fromEntries(Object.entries(jets).filter(([, sizes]) => sizes !== undefined)),
    deliveredSpringMm: fact("deliveredSpringLengthMm") ?? fact("springFreeMm"),
    tried: tried
      .filter((one) => !one.kept && settings[one.setting as keyof typeof settings] !== one.to)
      .map((one) => ({ setting: one.setting, to: one.to, what: one.words })),
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
