import { book } from "@/lib/data/bookings/book";
import { firstTimes } from "@/lib/data/bookings/times";
import { type CardStep, getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { passStep } from "@/lib/data/jobs/pass";
import { wantedValues } from "@/lib/data/jobs/sheets";
import { arriveJob } from "@/lib/data/jobs/states";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { getRides } from "@/lib/data/rides/get";
import { recordRide } from "@/lib/data/rides/record";
import { useReserved } from "@/lib/data/stock/reservations";
import { startTime, stopTime } from "@/lib/data/timeEntries/run";
import type { Role } from "@/lib/domain/access/permissions";
import type { RideObservation } from "@/lib/schemas/rides";
import type { Stage } from "../stage";
import type { Chance } from "./chance";

export interface Spot {
  readonly bayId: number;
  readonly role: Role;
  readonly startsAt: Date;
  readonly minutes?: number;
  readonly dropOffAt?: Date;
  readonly pickUpAt?: Date;
  readonly note?: string;
}

export async function bookSpot(stage: Stage, when: Date, jobId: number, spot: Spot): Promise<void> {
  const { role, ...place } = spot;
  const staffId = stage.staff[role];
  if (staffId === undefined) throw new Error(`The demo shop has no ${role}.`);
  await book(stage.shop.as(stage.hands.desk, when), { jobId, staffId, ...place });
}

/** The first time that works from a moment on, taken as the desk takes the first one offered. */
export async function bookFirst(stage: Stage, when: Date, jobId: number, from: Date): Promise<Spot> {
  const { times } = await firstTimes(stage.shop.as(stage.hands.desk, from), jobId, 1);
  const time = times[0];
  if (!time) throw new Error(`No time was offered for job ${jobId}.`);
  const role = (Object.keys(stage.staff) as Role[]).find((each) => stage.staff[each] === time.staffId) ?? "owner";
  const spot = { bayId: time.bayId, role, startsAt: new Date(time.startsAt), dropOffAt: new Date(time.startsAt - 15 * 60_000) };
  await bookSpot(stage, when, jobId, spot);
  return spot;
}

export async function arrive(stage: Stage, when: Date, jobId: number, odometerKm: number | null): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  await arriveJob(shop, { jobId, version: await versionOf(stage, when, jobId), odometerKm });
}

async function versionOf(stage: Stage, when: Date, jobId: number): Promise<number> {
  const card = await getCard(stage.shop.as("owner", when), jobId);
  if (!card) throw new Error(`There is no job ${jobId}.`);
  return card.version;
}

export interface Shift {
  readonly jobId: number;
  readonly role: Role;
  readonly from: Date;
  readonly chance: Chance;
  /** Steps to pass before the work is laid down; all but the ride when left out. */
  readonly steps?: number;
  /** A hold point to fail by its name, with what is measured there. */
  readonly fail?: { readonly holdPoint: string; readonly value: number };
  /** False leaves the time running. */
  readonly stop?: boolean;
  /** True where the person's time was taken for the job as a whole, not step by step. */
  readonly wholeJob?: boolean;
}

/** Works a card step by step with time running, as far as the shift says; yields the moment of each act and returns the last. */
export async function* workCard(stage: Stage, shift: Shift): AsyncGenerator<Date, Date, void> {
  const { jobId, role, chance } = shift;
  const card = await getCard(stage.shop.as(role, shift.from), jobId);
  const todo = (card?.steps ?? []).filter((step) => step.state === "todo" && step.kind !== "ride");
  let at = shift.from;
  yield at;
  const onStep = (step: CardStep | undefined) => (shift.wholeJob ? { jobId } : { jobId, stepId: step?.id });
  await startTime(stage.shop.as(role, at), onStep(todo[0]));
  for (const step of todo.slice(0, shift.steps ?? todo.length)) {
    const minutes = Math.max(1, Math.round((step.minutes * chance.between(82, 122)) / 100));
    const { breaks, end } = stage.calendar.worked(at, minutes);
    for (const pause of breaks) {
      yield pause.from;
      await stopOwn(stage, pause.from, role, jobId);
      yield pause.to;
      await startTime(stage.shop.as(role, pause.to), onStep(step));
    }
    at = end;
    yield at;
    if (!(await passOne(stage, at, shift, step))) break;
  }
  if (shift.stop ?? true) await stopOwn(stage, at, role, jobId);
  return at;
}

async function stopOwn(stage: Stage, at: Date, role: Role, jobId: number): Promise<void> {
  const shop = stage.shop.as(role, at);
  const running = (await getCard(shop, jobId))?.running;
  if (running?.jobId === jobId) await stopTime(shop, { entryId: running.id });
}

async function passOne(stage: Stage, at: Date, shift: Shift, step: CardStep): Promise<boolean> {
  const shop = stage.shop.as(shift.role, at);
  for (const part of step.parts)
    if (part.heldMilli > 0) await useReserved(shop, { reservationId: part.id, quantityMilli: part.heldMilli, stepId: step.id });
  const readings = step.holdPoints
    .filter((hold) => hold.kind === "reading")
    .map((hold) => ({ holdPointId: hold.id, value: shift.fail?.holdPoint === hold.name ? shift.fail.value : measured(hold, shift.chance) }));
  const ids = (kind: string) => step.holdPoints.filter((hold) => hold.kind === kind).map((hold) => hold.id);
  const passed = await passStep(shop, { stepId: step.id, version: step.version, readings, checks: ids("check"), signatures: ids("signature") });
  return passed === "passed";
}

/** A reading inside its limits, on its own increment. */
function measured(hold: { low: number | null; high: number | null; increment: number | null }, chance: Chance): number {
  const low = hold.low ?? 0;
  const by = hold.increment ?? 1;
  const count = Math.floor(((hold.high ?? low) - low) / by + 1e-9);
  return Number((low + by * chance.between(Math.min(1, count), Math.max(count - 1, Math.min(1, count)))).toFixed(3));
}

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
    await recordRide(shop, { jobId, version, good: good ? "yes" : "no", odometerKm: null, note: ride.note, observations: [...ride.felt] });
    if (good) continue;
    const ridden = await getRides(shop, jobId);
    const correction = ridden?.rides[0]?.corrections[0];
    if (!ridden || !correction) throw new Error(`The ride of job ${jobId} points to nothing.`);
    await acceptCorrection(shop, { correctionId: correction.id, version: ridden.version, lambda: correction.needs ? 0.85 : null });
    at = yield* workCard(stage, { jobId, role, from: at, chance });
  }
  return at;
}

/** The as-left sheet as the tuner confirms it, each value as it is known: jets are read, lengths measured. */
export async function finish(stage: Stage, at: Date, jobId: number, role: Role, odometerKm: number | null): Promise<void> {
  const shop = stage.shop.as(role, at);
  const job = await getJob(shop, jobId);
  if (!job) throw new Error(`There is no job ${jobId}.`);
  const values: Record<string, Record<string, number>> = {};
  const hows: Record<string, Record<string, "measured" | "read" | "assumed">> = {};
  for (const { carburettor, setting, value, how } of wantedValues(job.sheets)) {
    values[carburettor] = { ...values[carburettor], [setting]: value };
    const known = /Jet$|clipPosition|Fitted|Count/.test(setting) ? "read" : "measured";
    hows[carburettor] = { ...hows[carburettor], [setting]: how === "assumed" ? "assumed" : known };
  }
  const first = Object.keys(values)[0] ?? "1";
  if (values[first]?.idleSpeedRpm === undefined) {
    values[first] = { ...values[first], idleSpeedRpm: 1400 };
    hows[first] = { ...hows[first], idleSpeedRpm: "measured" };
  }
  await finishJob(shop, { jobId, version: job.version, values, hows, odometerKm, cautions: "on", note: "" });
}

