import type { ShopHandle } from "@/lib/db/shop";
import { KEPT } from "@/lib/domain/offline/bounds";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter, instantOf } from "@/lib/domain/schedule/localTime";
import { bikeByPlate } from "../bikes/bikeName";
import { zoneIn } from "../common/zone";
import { myNextJob } from "./mine";

const JOB = {
  id: true,
  number: true,
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
} as const;
const AT_WORK = {
  state: { in: ["booked" as const, "inWork" as const, "ride" as const] },
  arrivedAt: { not: null },
};

/**
 * The jobs whose cards a person's device keeps: what they go on with next, what they worked on today, and their bookings of
 * today. Only bikes that are here: nothing can be done on the others.
 */
export async function cardsToKeep(shop: ShopHandle) {
  const { staffId } = shop.by;
  if (staffId === null) return [];
  const zone = await zoneIn(shop.read);
  const today = dayIn(zone, shop.now);
  const from = new Date(instantOf(today, "00:00", zone));
  const until = new Date(instantOf(dayAfter(today), "00:00", zone));
  const [next, worked, booked] = await Promise.all([
    myNextJob(shop),
    shop.read.timeEntry.findMany({
      where: { staffId, startedAt: { gte: from }, job: AT_WORK },
      select: { job: { select: JOB } },
      orderBy: { startedAt: "desc" },
      take: 40,
    }),
    shop.read.booking.findMany({
      where: { staffId, state: "held", startsAt: { lt: until }, endsAt: { gt: from }, job: AT_WORK },
      select: { job: { select: JOB } },
      orderBy: { startsAt: "asc" },
      take: 20,
    }),
  ]);
  const jobs = new Map<number, { id: number; number: string; bike: string }>();
  if (next) jobs.set(next.id, { id: next.id, number: next.number, bike: next.bike });
  for (const { job } of [...worked, ...booked])
    if (job && !jobs.has(job.id))
      jobs.set(job.id, { id: job.id, number: job.number, bike: bikeByPlate(job.bike) });
  return [...jobs.values()].slice(0, KEPT.mostCards);
}
