import type { ShopHandle } from "@/lib/db/shop";
import type { Reason } from "@/lib/domain/reason";
import type { Observation, RideReading } from "@/lib/domain/tuning/rideTypes";
import { settingDef } from "@/lib/domain/tuning/settings";
import { sheetsOfJob } from "../jobs/sheets";
import { readingOf } from "./reading";

/** A job's rides for its ride page: the newest with all it points at, those before it in short. */
export async function getRides(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      id: true,
      number: true,
      state: true,
      stopped: true,
      version: true,
      bikeId: true,
      arrivedAt: true,
      bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
      steps: {
        where: { state: "todo" },
        select: { kind: true, position: true, name: true },
        orderBy: { position: "asc" },
        take: 1,
      },
      rides: {
        select: {
          id: true,
          at: true,
          good: true,
          note: true,
          odometerKm: true,
          observations: {
            select: { throttle: true, condition: true, engine: true, sign: true, note: true },
            orderBy: { id: "asc" },
            take: 20,
          },
          corrections: {
            select: {
              id: true,
              rank: true,
              setting: true,
              fromValue: true,
              toValue: true,
              also: true,
              because: true,
              needs: true,
              acceptedAt: true,
            },
            orderBy: { rank: "asc" },
            take: 12,
          },
        },
        orderBy: { id: "desc" },
        take: 12,
      },
    },
  });
  if (!job) return null;
  const { steps, rides, ...rest } = job;
  const newest = rides[0];
  const observations = (newest?.observations ?? []) as unknown as Observation[];
  const [reading, sheets] = await Promise.all([
    newest && !newest.good && observations.length > 0 ? readingOf(shop.read, job, observations) : null,
    sheetsOfJob(shop.read, job),
  ]);
  return {
    ...rest,
    nextStep: steps[0] ?? null,
    rides: rides.map((ride) => ({
      ...ride,
      corrections: ride.corrections.map((one) => ({
        ...one,
        name: settingDef(one.setting)?.name ?? one.setting,
        unit: settingDef(one.setting)?.unit ?? "",
        also: alsoOf(one.also),
        because: one.because as unknown as Reason[],
      })),
    })),
    ...about(reading),
    target: sheets.target,
  };
}

/** What a correction changes along, in words. */
function alsoOf(kept: unknown): readonly string[] {
  return (kept as readonly { setting: string; from: number; to: number }[]).map(({ setting, from, to }) => {
    const def = settingDef(setting);
    const text = (value: number) => value.toFixed(def?.decimals ?? 0);
    return `${def?.name.toLowerCase() ?? setting} ${text(from)} → ${text(to)} ${def?.unit ?? ""}`.trim();
  });
}

/** What is not kept with the ride and follows from its observations alone. */
function about(reading: RideReading | null) {
  return {
    ruleOutFirst: reading?.ruleOutFirst ?? [],
    unexplained: reading?.unexplained ?? [],
    unknown: (reading?.corrections ?? [])
      .filter((one) => one.from === null)
      .map((one) => settingDef(one.setting)?.name ?? one.setting),
  };
}
