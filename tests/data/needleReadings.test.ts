import { beforeEach, describe, expect, it } from "vitest";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { measuredOnBike } from "@/lib/data/bikes/measured";
import { fittedNeedles, needleHistory, recordNeedle } from "@/lib/data/bikes/needles";
import { needlesOfJob } from "@/lib/data/jobs/needles";
import { passStep } from "@/lib/data/jobs/pass";
import { takeBackPass } from "@/lib/data/jobs/takeBack";
import { handoverForPaper } from "@/lib/data/papers/handover";
import type { ShopHandle } from "@/lib/db/shop";
import { needleDiameterMm } from "@/lib/domain/tuning/needle";
import { FittedNeedleSchema } from "@/lib/schemas/needles";
import { jobNow, type MadeJob, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

/** A delivered needle: straight to 26 mm below its shoulder, then 30 mm of taper; the jet lies 20 mm below, slide shut. */
const DELIVERED = {
  needleStraightMm: 2.5,
  needleStraightLiftMm: 6,
  needleStraightLengthMm: 26,
  needleTaper1LengthMm: 30,
  needleTaper1Deg: 1.72,
};

let a: ShopHandle;
let b: ShopHandle;
let job: MadeJob;
let second: number;

/** The job's operation reads the needle at 36 mm and at 46 mm; what is before it is done. */
beforeEach(async () => {
  ({ a, b } = await twoShops());
  job = await makeJob(a);
  await makeJob(b);
  const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  second = await a.write(async (tx) => {
    const hold = { measures: "needleMm", low: null, high: null, unit: "mm", increment: 0.01 };
    const { stepId } = await tx.holdPoint.update({
      where: { id: job.reading },
      data: { ...hold, name: "Needle at 36", station: 36 },
    });
    await tx.step.updateMany({ where: { jobId: job.id, kind: "open" }, data: { state: "done" } });
    for (const [key, value] of Object.entries(DELIVERED))
      await tx.modelFact.upsert({
        where: { modelCardId_key: { modelCardId, key } },
        create: { modelCardId, key, value, how: "read" },
        update: { value, how: "read" },
      });
    const other = {
      ...hold,
      stepId,
      position: 9,
      kind: "reading",
      name: "Needle at 46",
      station: 46,
    } as const;
    return (await tx.holdPoint.create({ data: other })).id;
  });
});

async function pass(at36: number, at46: number, carburettor?: number) {
  const step = (await jobNow(a, job.id)).steps[1];
  const on = carburettor === undefined ? {} : { [job.reading]: carburettor, [second]: carburettor };
  return passStep(a, {
    stepId: step?.id ?? 0,
    version: step?.version ?? 0,
    readings: [
      { holdPointId: job.reading, value: at36 },
      { holdPointId: second, value: at46 },
    ],
    carburettors: on,
    checks: [],
    signatures: [],
  });
}

const now = async (carburettor = 1) => (await fittedNeedles(a.read, job.bikeId)).get(carburettor);

describe("a needle read at its stations on the card", () => {
  it("is the bike's needle from then on: on the job, at the next visit, on the bench and in the trend", async () => {
    expect(await pass(2.17, 1.88)).toBe("passed");
    const kept = await now();
    expect(kept).toMatchObject({ state: "found", how: "measured", jobId: job.id, onCard: "read" });
    expect(kept?.record).toMatchObject({ micrometerMm: 0.01, origin: "delivered" });
    expect(kept?.record.stations).toEqual([
      { atMm: 36, diameterMm: 2.17 },
      { atMm: 46, diameterMm: 1.88 },
    ]);
    const [onJob] = await needlesOfJob(a.read, job);
    expect(onJob).toMatchObject({ found: { id: kept?.id }, made: null, fitted: { id: kept?.id } });
    const shape = (await benchBike(a, job.bikeId))?.carburettors[0]?.needle?.value;
    expect(shape && needleDiameterMm(shape, 16)).toBeCloseTo(2.17, 9);
    expect(shape && needleDiameterMm(shape, 3)).toBeCloseTo(2.5, 9);
    const trends = (await measuredOnBike(a, job.bikeId))?.trends;
    expect(trends?.map((one) => [one.station, one.readings.at(-1)?.value])).toEqual([
      [36, 2.17],
      [46, 1.88],
    ]);
    // The other shop's bike of the same id has no needle of its own.
    expect((await fittedNeedles(b.read, job.bikeId)).size).toBe(0);
  });

  it("is told once on the handover: among the needle's stations", async () => {
    await pass(2.17, 1.88);
    const paper = await handoverForPaper(a, job.id);
    expect(paper?.needles.map((row) => [row.atMm, row.left, row.how])).toEqual([
      [36, 2.17, "measured"],
      [46, 1.88, "measured"],
    ]);
    expect(paper?.readings).toEqual([]);
  });

  it("counts no longer once its step is taken back, and then as it is read again", async () => {
    await pass(2.17, 1.88);
    const step = (await jobNow(a, job.id)).steps[1];
    await takeBackPass(a, { stepId: step?.id ?? 0, version: step?.version ?? 0 });
    expect(await now()).toBeUndefined();
    expect((await benchBike(a, job.bikeId))?.carburettors[0]?.needle).toBeUndefined();
    expect(await needlesOfJob(a.read, job)).toEqual([]);
    expect((await measuredOnBike(a, job.bikeId))?.trends).toEqual([]);
    expect((await needleHistory(a.read, job.bikeId)).map((one) => one.takenBack)).toEqual([true]);

    await pass(2.16, 1.87);
    expect((await now())?.record.stations.map((one) => one.diameterMm)).toEqual([2.16, 1.87]);
    expect((await needleHistory(a.read, job.bikeId)).map((one) => one.takenBack)).toEqual([false, true]);
    expect((await measuredOnBike(a, job.bikeId))?.trends.map((one) => one.readings.length)).toEqual([1, 1]);
  });

  it("is put into what a person recorded of the needle before, and is that again when it is taken back", async () => {
    const stations = {
      "1": { at: "10", diameter: "2.50" },
      "2": { at: "26", diameter: "2.50" },
      "3": { at: "36", diameter: "2.20" },
      "4": { at: "56", diameter: "1.60" },
    };
    const said = {
      bikeId: String(job.bikeId),
      carburettor: "1",
      state: "found",
      origin: "delivered",
      marks: "T7",
    };
    await recordNeedle(
      a,
      FittedNeedleSchema.parse({ ...said, micrometerMm: "0.001", planeMm: "20", stations }),
    );
    await pass(2.17, 1.88);
    expect((await now())?.record).toMatchObject({ marks: "T7", planeMm: 20, micrometerMm: 0.01 });
    expect((await now())?.record.stations.map((one) => [one.atMm, one.diameterMm])).toEqual([
      [10, 2.5],
      [26, 2.5],
      [36, 2.17],
      [46, 1.88],
      [56, 1.6],
    ]);
    const step = (await jobNow(a, job.id)).steps[1];
    await takeBackPass(a, { stepId: step?.id ?? 0, version: step?.version ?? 0 });
    expect((await now())?.record.stations.map((one) => one.diameterMm)).toEqual([2.5, 2.5, 2.2, 1.6]);
  });

  it("goes to the carburettor that it was read on", async () => {
    await a.write((tx) =>
      tx.carburettor.create({ data: { bikeId: job.bikeId, position: 2, label: "Right" } }),
    );
    await pass(2.17, 1.88, 2);
    expect(await now(1)).toBeUndefined();
    expect((await now(2))?.record.stations).toHaveLength(2);
  });

  it("tells what was made where a step before it makes the needle", async () => {
    await a.write((tx) => tx.step.updateMany({ where: { key: "seat" }, data: { makes: ["needle"] } }));
    await pass(2.15, 1.86);
    const [onJob] = await needlesOfJob(a.read, job);
    expect(onJob).toMatchObject({ found: null, made: { onCard: "read" } });
    expect(onJob?.made?.record.stations[0]).toEqual({ atMm: 36, diameterMm: 2.15 });
  });
});
