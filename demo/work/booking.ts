import { recordArrival, signArrival } from "@/lib/data/arrivals/record";
import { book } from "@/lib/data/bookings/book";
import { firstTimes } from "@/lib/data/bookings/times";
import { arriveJob } from "@/lib/data/jobs/states";
import type { Role } from "@/lib/domain/access/permissions";
import { placeOf } from "@/lib/domain/arrival/damage";
import { SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { signatureText } from "@/lib/domain/signature/strokes";
import type { Stage } from "../stage";

/** A signature as a finger leaves it: a first letter, a wave and a stroke under it. */
const SIGNED = signatureText([
  [
    [70, 150],
    [84, 60],
    [104, 48],
    [120, 78],
    [96, 104],
    [78, 110],
    [112, 122],
    [140, 148],
  ],
  [
    [150, 132],
    [168, 108],
    [182, 134],
    [198, 110],
    [214, 136],
    [232, 112],
    [252, 134],
    [300, 124],
    [360, 126],
  ],
  [
    [90, 170],
    [220, 162],
    [380, 166],
  ],
]);

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

/** A bike is looked over with its owner at the door, with what was there before, and the owner signs. */
export async function takeIn(
  stage: Stage,
  when: Date,
  came: { readonly jobId: number; readonly odometerKm: number },
): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const { bike } = await shop.read.job.findUniqueOrThrow({
    where: { id: came.jobId },
    select: { bike: { select: { customer: { select: { name: true } } } } },
  });
  const [x, y] = placeOf("tank", "left", SHEET_WIDTH);
  const id = await recordArrival(shop, {
    jobId: came.jobId,
    bikeId: undefined,
    odometerKm: came.odometerKm,
    fuelEighths: 3,
    keys: 1,
    accessories: "Tank bag, left on",
    words: "Hesitates as it is opened up out of the bend, worse when it is hot.",
    damages: [{ side: "left", part: "tank", what: "scratch", x, y, note: "A hand long", firstId: undefined }],
  });
  await signArrival(shop, { id, version: 1, signedBy: bike.customer.name, signature: SIGNED });
}

/** The version that a form about the job carries. */
export async function versionOf(stage: Stage, when: Date, jobId: number): Promise<number> {
  const { version } = await stage.shop
    .as("owner", when)
    .read.job.findUniqueOrThrow({ where: { id: jobId }, select: { version: true } });
  return version;
}
