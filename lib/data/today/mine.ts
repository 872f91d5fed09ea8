import type { ShopHandle } from "@/lib/db/shop";
import { bikeByPlate } from "../bikes/bikeName";
import { OPEN_WAIT } from "../jobs/begun";
import { breaksSince } from "../jobs/time/breaks";

const JOB = {
  id: true,
  number: true,
  title: true,
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
  waits: OPEN_WAIT,
  handOvers: { select: { toId: true }, orderBy: { id: "desc" }, take: 1 },
} as const;
const GOING_ON = {
  state: { in: ["waiting" as const, "booked" as const, "inWork" as const, "ride" as const] },
};
const TWO_WEEKS_MS = 14 * 86_400_000;

export type WhyMine = "running" | "break" | "handed" | "booked";

/**
 * The job that whoever looks goes on with: what their time runs on or rests from, else what was handed to them last, else the next of their
 * bookings. A job that waits, or was handed to somebody else, is left out.
 */
export async function myNextJob(shop: ShopHandle) {
  const { staffId } = shop.by;
  if (staffId === null) return null;
  const [running, paused, given, booked] = await Promise.all([
    shop.read.timeEntry.findFirst({
      where: { staffId, endedAt: null },
      select: { job: { select: JOB } },
      orderBy: { startedAt: "desc" },
    }),
    shop.read.timeBreak.findFirst({
      where: { staffId, endedAt: null, startedAt: { gt: breaksSince(shop) }, job: GOING_ON },
      select: { job: { select: JOB } },
      orderBy: { id: "desc" },
    }),
    shop.read.jobHandOver.findMany({
      where: { toId: staffId, job: GOING_ON },
      select: { job: { select: JOB } },
      orderBy: { id: "desc" },
      take: 20,
    }),
    shop.read.booking.findMany({
      where: {
        staffId,
        state: "held",
        endsAt: { gt: new Date(shop.now.getTime() - TWO_WEEKS_MS) },
        job: GOING_ON,
      },
      select: { startsAt: true, job: { select: JOB } },
      orderBy: { startsAt: "asc" },
      take: 20,
    }),
  ]);
  const free = (job: (typeof given)[number]["job"] | null) =>
    job !== null && job.waits.length === 0 && (job.handOvers[0]?.toId ?? staffId) === staffId;
  const rests = paused && free(paused.job) ? paused : null;
  const handed = given.find((one) => free(one.job));
  const next = booked.find((one) => free(one.job));
  const why: WhyMine = running ? "running" : rests ? "break" : handed ? "handed" : "booked";
  const job = running?.job ?? rests?.job ?? handed?.job ?? next?.job;
  if (!job) return null;
  const { bike, waits: _waits, handOvers: _handOvers, ...rest } = job;
  return {
    ...rest,
    bike: bikeByPlate(bike),
    why,
    startsAt: why === "booked" ? (next?.startsAt ?? null) : null,
  };
}
