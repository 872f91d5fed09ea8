import type { ShopHandle } from "@/lib/db/shop";
import { type LifeEvent, placed } from "@/lib/domain/sheets/lifeStrip";
import { measuredName } from "@/lib/domain/tuning/measurables";
import { odometerReads } from "../bikes/odometerReads";
import { readingsOn } from "../bikes/readings";

/** Newest of each kind that are shown. */
const MOST = 100;
const newest = { orderBy: { id: "desc" }, take: MOST } as const;
const SHEETS = {
  asFound: "Settings as found",
  asLeft: "Settings as left",
  target: "Target settings",
} as const;

/** All that is kept of a bike in the order in which it happened; null where there is no such bike. */
export async function bikeLife(shop: ShopHandle, bikeId: number) {
  const { read } = shop;
  const bike = await read.bike.findUnique({
    where: { id: bikeId },
    select: {
      id: true,
      plate: true,
      customer: { select: { name: true } },
      modelCard: { select: { make: true, model: true } },
    },
  });
  if (!bike) return null;
  const [jobs, sheets, rides, readings, parts, photos, reads] = await Promise.all([
    read.job.findMany({
      where: { bikeId, state: { not: "cancelled" } },
      select: {
        id: true,
        number: true,
        title: true,
        odometerKm: true,
        arrivedAt: true,
        startedAt: true,
        createdAt: true,
      },
      ...newest,
    }),
    read.settingSheet.findMany({
      where: { bikeId, kind: { not: "target" } },
      select: { id: true, kind: true, takenAt: true, odometerKm: true, jobId: true },
      ...newest,
    }),
    read.testRide.findMany({
      where: { job: { bikeId } },
      select: { id: true, at: true, good: true, odometerKm: true, jobId: true },
      ...newest,
    }),
    readingsOn(read, [bikeId]),
    read.move.findMany({
      where: { job: { bikeId }, kind: "use" },
      select: { at: true, jobId: true, part: { select: { code: true, name: true } } },
      ...newest,
    }),
    read.photo.findMany({
      where: { noun: "bike", nounId: bikeId, removedAt: null },
      select: { id: true, at: true, caption: true },
      ...newest,
    }),
    odometerReads(read, [bikeId]),
  ]);
  const events: LifeEvent[] = [
    ...jobs.map(
      (one): LifeEvent => ({
        kind: "job",
        at: (one.arrivedAt ?? one.startedAt ?? one.createdAt).getTime(),
        km: one.arrivedAt ? one.odometerKm : null,
        text: `Job ${one.number}, ${one.title}`,
        jobId: one.id,
      }),
    ),
    ...sheets.map(
      (one): LifeEvent => ({
        kind: "sheet",
        at: one.takenAt.getTime(),
        km: one.odometerKm,
        text: SHEETS[one.kind],
        jobId: one.jobId,
      }),
    ),
    ...rides.map(
      (one): LifeEvent => ({
        kind: "ride",
        at: one.at.getTime(),
        km: one.odometerKm,
        text: one.good ? "Test ride, all good" : "Test ride, something to correct",
        jobId: one.jobId,
      }),
    ),
    ...readings.slice(-MOST).map(
      (one): LifeEvent => ({
        kind: "reading",
        at: one.at.getTime(),
        km: one.odometerKm,
        text: `${measuredName(one.measures, one.station)} ${one.value}`,
        jobId: one.jobId,
      }),
    ),
    ...parts.map(
      (one): LifeEvent => ({
        kind: "part",
        at: one.at.getTime(),
        km: null,
        text: `${one.part.code} ${one.part.name}`,
        jobId: one.jobId,
      }),
    ),
    ...photos.map(
      (one): LifeEvent => ({
        kind: "photo",
        at: one.at.getTime(),
        km: null,
        text: one.caption || "Photo",
        jobId: null,
      }),
    ),
  ];
  return { ...bike, events: placed(events, reads.get(bikeId) ?? []) };
}
