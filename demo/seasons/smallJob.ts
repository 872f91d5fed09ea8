import { addToJob } from "@/lib/data/acceptance/addToJob";
import { openJob } from "@/lib/data/acceptance/openJob";
import { closeFree } from "@/lib/data/jobs/closeFree";
import { finishJob } from "@/lib/data/jobs/finish";
import { AddToJobSchema, OpenJobSchema } from "@/lib/schemas/agreements";
import type { Stage } from "../stage";
import { arrive, bookFirst, versionOf } from "../work/booking";
import { workCard } from "../work/card";
import { type Chance, chance as seeded } from "../work/chance";
import type { Course } from "../work/courses";
import type { Garage } from "../work/garage";
import { deposit } from "../work/money";
import { orderShort, receive } from "../work/quoting";
import { type End, settle } from "./settle";

/** Work that is agreed on the phone or at the counter, as the shop usually says it. */
export interface SmallWork {
  readonly title: string;
  readonly minutes: number;
  readonly grade: string;
  /** What is fitted beside the work, by code. */
  readonly parts?: readonly (readonly [code: string, quantity: string])[];
}

export interface SmallJob {
  readonly seed: number;
  /** Working days from today; below nothing. */
  readonly day: number;
  readonly bike: number;
  readonly work: SmallWork;
  readonly end: End;
  /** Why the bike came back some weeks later, charged nothing. */
  readonly comeback?: SmallWork;
}

/** What an hour is reckoned at where somebody says up to how much, in the currency's unit, and how far that may go past it. */
export interface Reckoning {
  readonly hourly: number;
  readonly step: number;
}

/** From so many minutes on a quarter is paid ahead. */
const LARGE = 360;
const TIMES = ["08:20", "09:10", "10:30", "11:40", "13:20", "15:10"];
const MORNINGS = ["08:00", "09:00", "10:00", "12:30", "13:30"];

/** A job by word, from the phone to its money; where it comes back, to the end of that too. */
export async function* smallJob(stage: Stage, garage: Garage, job: SmallJob, by: Reckoning): Course {
  const chance = seeded(job.seed);
  const said = stage.calendar.at(job.day, chance.pick(TIMES));
  yield said;
  const bikeId = await garage.bike(job.bike, said);
  const hours = job.work.minutes / 60;
  const upTo = Math.ceil((hours * by.hourly * 1.6 + by.step) / by.step) * by.step;
  const jobId = await openJob(
    stage.shop.as(stage.hands.desk, said),
    OpenJobSchema.parse({
      bikeId: String(bikeId),
      kind: "word",
      title: job.work.title,
      minutes: String(job.work.minutes),
      grade: job.work.grade,
      saidBy: garage.ownerOf(job.bike),
      how: chance.pick(["phone", "phone", "counter", "message"]),
      upTo: String(upTo),
    }),
  );
  if (job.work.minutes >= LARGE)
    await deposit(stage, said, jobId, await quarterOf(stage, said, jobId), "transfer");
  const done = yield* worked(stage, garage, job, jobId, said, chance, job.day + chance.between(1, 4));
  yield* settle(stage, done, jobId, job.end, chance);
  if (!job.comeback) return;
  const back = job.day + chance.between(18, 35);
  const again = stage.calendar.at(back, "09:30");
  yield again;
  const freeId = await openJob(
    stage.shop.as(stage.hands.desk, again),
    OpenJobSchema.parse({
      bikeId: String(bikeId),
      kind: "comeback",
      title: job.comeback.title,
      minutes: String(job.comeback.minutes),
      grade: job.comeback.grade,
      comebackOfId: String(jobId),
      charged: "nothing",
      why: job.comeback.title,
    }),
  );
  const free = { ...job, work: job.comeback };
  const at = yield* worked(stage, garage, free, freeId, again, chance, back + 1);
  const version = await versionOf(stage, at, freeId);
  await closeFree(stage.shop.as(stage.hands.desk, at), { jobId: freeId, version });
}

async function quarterOf(stage: Stage, at: Date, id: number): Promise<number> {
  const { revision } = await stage.shop.as(stage.hands.desk, at).read.job.findUniqueOrThrow({
    where: { id },
    select: { revision: { select: { grossMinor: true } } },
  });
  return Math.round(revision.grossMinor / 400) * 100;
}

/** Booked, brought, worked and finished: the moment of its end. */
async function* worked(
  stage: Stage,
  garage: Garage,
  job: SmallJob,
  jobId: number,
  said: Date,
  chance: Chance,
  day: number,
): AsyncGenerator<Date, Date, void> {
  const parts = job.work.parts ?? [];
  let asked = said;
  let first = day;
  if (parts.length > 0) {
    const short = await withParts(stage, said, jobId, job.work);
    if (short.length > 0) {
      const orders = await orderShort(stage, said, short);
      asked = stage.calendar.at(day + 2, "10:40");
      yield asked;
      await receive(stage, asked, orders);
      first = day + 3;
    }
  }
  const spot = await bookFirst(stage, asked, jobId, stage.calendar.at(first, chance.pick(MORNINGS)));
  const brought = new Date(spot.startsAt.getTime() - 10 * 60_000);
  yield brought;
  const odometerKm = garage.odometer(job.bike) + garage.ridden(job.bike, chance.between(120, 900));
  await arrive(stage, brought, jobId, odometerKm);
  const last = yield* workCard(stage, { jobId, role: spot.role, from: spot.startsAt, chance });
  const at = stage.calendar.worked(last, 6).end;
  yield at;
  await finishJob(stage.shop.as(spot.role, at), {
    jobId,
    version: await versionOf(stage, at, jobId),
    values: {},
    hows: {},
    odometerKm: odometerKm + 3,
    cautions: "on",
    note: "",
  });
  const handed = stage.calendar.worked(at, chance.between(15, 60)).end;
  yield handed;
  return handed;
}

function withParts(stage: Stage, at: Date, jobId: number, work: SmallWork) {
  const rows = (work.parts ?? []).map(([what, quantity], row) => [row, { kind: "part", what, quantity }]);
  return addToJob(
    stage.shop.as(stage.hands.desk, at),
    AddToJobSchema.parse({
      jobId: String(jobId),
      title: `${work.title}: parts`.slice(0, 120),
      minutes: "10",
      grade: work.grade,
      parts: Object.fromEntries(rows),
    }),
  );
}
