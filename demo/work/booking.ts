import { book } from "@/lib/data/bookings/book";
import { firstTimes } from "@/lib/data/bookings/times";
import { getCard } from "@/lib/data/jobs/card";
import { arriveJob } from "@/lib/data/jobs/states";
import type { Role } from "@/lib/domain/access/permissions";
import type { Stage } from "../stage";

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
  const role =
    (Object.keys(stage.staff) as Role[]).find((each) => stage.staff[each] === time.staffId) ?? "owner";
  const spot = {
    bayId: time.bayId,
    role,
    startsAt: new Date(time.startsAt),
    dropOffAt: new Date(time.startsAt - 15 * 60_000),
  };
  await bookSpot(stage, when, jobId, spot);
  return spot;
}

export async function arrive(
  stage: Stage,
  when: Date,
  jobId: number,
  odometerKm: number | null,
): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  await arriveJob(shop, { jobId, version: await versionOf(stage, when, jobId), odometerKm });
}

/** The version that a form about the job carries. */
export async function versionOf(stage: Stage, when: Date, jobId: number): Promise<number> {
  const card = await getCard(stage.shop.as("owner", when), jobId);
  if (!card) throw new Error(`There is no job ${jobId}.`);
  return card.version;
}
