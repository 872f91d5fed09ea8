import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { getRides } from "@/lib/data/rides/get";
import { recordRide } from "@/lib/data/rides/record";
import type { Role } from "@/lib/domain/access/permissions";
import type { RideObservation } from "@/lib/schemas/rides";
import type { Stage } from "../stage";
import { versionOf } from "./booking";
import { workCard } from "./card";
import type { Chance } from "./chance";

export interface Ride {
  readonly felt: readonly RideObservation[];
  readonly note: string;
}

export const GOOD: Ride = { felt: [], note: "Pulls clean from closed to full. Idle steady hot." };

/** Rides the bike, and where something was felt takes the first correction that can be taken, works it and rides again. */
export async function* rideOut(
  stage: Stage,
  jobId: number,
  role: Role,
  from: Date,
  chance: Chance,
  rides: readonly Ride[],
): AsyncGenerator<Date, Date, void> {
  let at = from;
  for (const ride of rides) {
    at = stage.calendar.worked(at, chance.between(18, 26)).end;
    yield at;
    const shop = stage.shop.as(role, at);
    const good = ride.felt.length === 0;
    const version = await versionOf(stage, at, jobId);
    await recordRide(shop, {
      jobId,
      version,
      good: good ? "yes" : "no",
      odometerKm: null,
      note: ride.note,
      observations: [...ride.felt],
    });
    if (good) continue;
    const ridden = await getRides(shop, jobId);
    const correction = ridden?.rides[0]?.corrections[0];
    if (!ridden || !correction) throw new Error(`The ride of job ${jobId} points to nothing.`);
    await acceptCorrection(shop, {
      correctionId: correction.id,
      version: ridden.version,
      lambda: correction.needs ? 0.85 : null,
    });
    at = yield* workCard(stage, { jobId, role, from: at, chance });
  }
  return at;
}

/** The as-left sheet as the tuner confirms it, each value as it is known: jets are read, lengths measured. */
export async function finish(
  stage: Stage,
  at: Date,
  jobId: number,
  role: Role,
  odometerKm: number | null,
): Promise<void> {
  const shop = stage.shop.as(role, at);
  const job = await getJob(shop, jobId);
  if (!job) throw new Error(`There is no job ${jobId}.`);
  const values: Record<string, Record<string, number>> = {};
  const hows: Record<string, Record<string, "measured" | "read" | "assumed">> = {};
  for (const { carburettor, setting, value, how } of job.sheets.fitted) {
    values[carburettor] = { ...values[carburettor], [setting]: value };
    const known = /Jet$|clipPosition|Fitted|Count/.test(setting) ? "read" : "measured";
    hows[carburettor] = { ...hows[carburettor], [setting]: how === "assumed" ? "assumed" : known };
  }
  const first = Object.keys(values)[0] ?? "1";
  if (values[first]?.idleSpeedRpm === undefined) {
    values[first] = { ...values[first], idleSpeedRpm: 1350 };
    hows[first] = { ...hows[first], idleSpeedRpm: "measured" };
  }
  await finishJob(shop, { jobId, version: job.version, values, hows, odometerKm, cautions: "on", note: "" });
}
