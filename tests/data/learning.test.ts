import { describe, expect, it } from "vitest";
import { saveRecommendation, workRecommendation } from "@/lib/data/bench/recommend";
import { workTrip } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { describePart } from "@/lib/data/bikes/describedParts";
import { judgeLesson, listLessons } from "@/lib/data/bikes/lessons";
import { getSheet, saveSheet } from "@/lib/data/bikes/sheets";
import { recordIntake } from "@/lib/data/intakes/record";
import { finishJob } from "@/lib/data/jobs/finish";
import { passStep } from "@/lib/data/jobs/pass";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { getRides } from "@/lib/data/rides/get";
import { recordLog } from "@/lib/data/rides/log";
import { recordRide } from "@/lib/data/rides/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { targetLambda } from "@/lib/domain/tuning/regions";
import { benchSchema } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import { DescribePartSchema } from "@/lib/schemas/describedParts";
import { IntakeSchema } from "@/lib/schemas/intakes";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";
import { RideLogSchema } from "@/lib/schemas/rideLog";
import { jobNow, type MadeJob, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

async function readyToRide(shop: ShopHandle): Promise<MadeJob> {
  const job = await makeJob(shop);
  const [open, seat, close] = job.steps as [number, number, number];
  const plain = { version: 1, readings: [], checks: [], signatures: [] };
  await passStep(shop, { ...plain, stepId: open });
  await passStep(shop, { ...plain, stepId: seat, readings: [{ holdPointId: job.reading, value: 3.1 }] });
  await passStep(shop, { ...plain, stepId: close, checks: [job.check] });
  return job;
}

/** A log that holds each opening for four seconds, off target by a factor. */
const csvOf = (openings: readonly (readonly [throttle: number, factor: number])[]) =>
  `time,throttle,lambda,rpm\n${openings
    .flatMap(([throttle, factor], k) =>
      Array.from({ length: 40 }, (_, i) =>
        [k * 4 + i / 10, throttle * 100, (targetLambda(throttle) * factor).toFixed(4), 6000].join(","),
      ),
    )
    .join("\n")}\n`;

const form = async (shop: ShopHandle, jobId: number, csv: string) =>
  RideLogSchema.parse({
    csv,
    jobId: String(jobId),
    version: String((await jobNow(shop, jobId)).version),
    throttleUnit: "percent",
  });

const ask = (change: Record<string, string> = {}) =>
  benchSchema(RECOMMEND_FIELDS, "metric").parse({ altitude: "410", month: "11", ...change });

const on = async (shop: ShopHandle, bikeId: number) => {
  const bike = await benchBike(shop, bikeId);
  if (!bike) throw new Error("no bike");
  return bike;
};

/** A bike whose newest sheet says what is fitted. */
async function foundBike(shop: ShopHandle) {
  const job = await readyToRide(shop);
  const values = { mainJet: 142.5, pilotJet: 45, clipPosition: 3, mixtureScrewTurns: 2, idleSpeedRpm: 1400 };
  await saveSheet(shop, {
    bikeId: job.bikeId,
    kind: "asFound",
    values: Object.entries(values).map(([setting, value]) => ({
      carburettor: 1,
      setting,
      value,
      how: "read",
    })),
  });
  return on(shop, job.bikeId);
}

describe("a lambda log of a job's test ride", () => {
  it("is ranked in the ride's own list and kept for the model card, once per key; another shop learns nothing", async () => {
    const { a, b } = await twoShops();
    const job = await readyToRide(a);
    const input = {
      ...(await form(
        a,
        job.id,
        csvOf([
          [0.25, 1],
          [0.98, 1.06],
        ]),
      )),
      key: "log-ride-key-1",
    };
    const { rideId } = await recordLog(a, input);
    expect((await recordLog(a, input)).rideId).toBe(rideId);
    const view = await getRides(a, job.id);
    expect(view?.rides).toHaveLength(1);
    expect(view?.rides[0]?.corrections[0]).toMatchObject({
      setting: "mainJet",
      fromValue: 142.5,
      toValue: 145,
      needs: "",
    });
    expect(view?.rides[0]?.observations.map((o) => [o.throttle, o.sign])).toEqual([
      ["quarter", "good"],
      ["full", "lean"],
    ]);
    expect(view?.ruleOutFirst.length).toBeGreaterThan(0);
    const { calibration } = await on(a, job.bikeId);
    expect(calibration).toMatchObject({ logs: 1, accepted: 0 });
    const region = (name: string) => calibration?.regions.find((r) => r.region === name);
    expect(region("main")?.samples).toBe(1);
    expect(region("pilot")).toMatchObject({ samples: 0, value: expect.closeTo(0, 1) });
    expect(await b.read.calibration.count()).toBe(0);
    expect(await b.read.testRide.count()).toBe(0);
  });

  it("that is on target records no ride: a good ride is said by the rider", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    expect((await recordLog(a, await form(a, job.id, csvOf([[0.5, 1.01]])))).rideId).toBeNull();
    expect(await a.read.testRide.count()).toBe(0);
    expect((await on(a, job.bikeId)).calibration?.logs).toBe(1);
  });

  it("that read rich at full load is the measurement for one step leaner, and no more than one is offered", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await recordLog(a, await form(a, job.id, csvOf([[0.98, 0.9]])));
    const leaner = (await getRides(a, job.id))?.rides[0]?.corrections.find((c) => c.setting === "mainJet");
    expect(leaner).toMatchObject({ toValue: 140, needs: "" });
    const { version } = await jobNow(a, job.id);
    await acceptCorrection(a, { correctionId: leaner?.id ?? 0, version, lambda: null });
    expect((await getRides(a, job.id))?.target?.values.find((v) => v.setting === "mainJet")?.value).toBe(140);
  });

  it("without a steady opening, with text for lambda only, or before the bike is closed up, is refused and leaves nothing", async () => {
    const { a } = await twoShops();
    const early = await makeJob(a);
    await expect(recordLog(a, await form(a, early.id, csvOf([[0.5, 1]])))).rejects.toThrow(/not in work/);
    const job = await readyToRide(a);
    const short = "time,throttle,lambda\n0,10,0.9\n0.1,60,0.9\n0.2,10,0.9\n";
    await expect(recordLog(a, await form(a, job.id, short))).rejects.toThrow(/held long enough/);
    const words = csvOf([[0.5, 1]]).replaceAll(/,[\d.]+,6000\n/g, ",rich,6000\n");
    await expect(recordLog(a, await form(a, job.id, words))).rejects.toThrow(Refusal);
    expect(await a.read.calibration.count()).toBe(0);
  });

  it("is refused by its field when it is empty or too long", () => {
    const fields = (csv: string) => {
      const read = RideLogSchema.safeParse({ csv, jobId: "1", version: "1" });
      return read.success ? [] : read.error.issues.map((i) => [i.path[0], i.message]);
    };
    expect(fields("")).toEqual([["csv", expect.stringMatching(/empty/)]]);
    expect(fields(`time,throttle,lambda\n${"0,1,1\n".repeat(1_000_000)}`)).toEqual([
      ["csv", expect.stringMatching(/longer than 5 MB/)],
    ]);
  });
});

describe("an accepted as-left sheet", () => {
  it("teaches the model card after a good ride, in the air of the day, without counting as a measurement", async () => {
    const { a, b } = await twoShops();
    const job = await readyToRide(a);
    const { version } = await jobNow(a, job.id);
    await recordRide(a, {
      jobId: job.id,
      version,
      good: "yes",
      odometerKm: null,
      note: "",
      observations: [],
    });
    const values = { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 };
    await finishJob(a, {
      jobId: job.id,
      version: (await jobNow(a, job.id)).version,
      values: { "1": values },
      hows: { "1": Object.fromEntries(Object.keys(values).map((k) => [k, "read" as const])) },
      odometerKm: null,
      note: "",
      cautions: "on",
    });
    const bike = await on(a, job.bikeId);
    expect(bike.calibration).toMatchObject({ logs: 0, accepted: 1, samples: 0 });
    expect(bike.calibration?.regions.every((r) => r.samples === 0)).toBe(true);
    expect(bike.conditions?.altitudeM).toBeDefined();
    expect(await b.read.calibration.count()).toBe(0);
  });
});

/** Closes a job after a good ride, with these values left. */
async function leave(shop: ShopHandle, job: MadeJob, values: Record<string, number>) {
  await recordRide(shop, {
    jobId: job.id,
    version: (await jobNow(shop, job.id)).version,
    good: "yes",
    odometerKm: null,
    note: "",
    observations: [],
  });
  await finishJob(shop, {
    jobId: job.id,
    version: (await jobNow(shop, job.id)).version,
    values: { "1": values },
    hows: { "1": Object.fromEntries(Object.keys(values).map((k) => [k, "read" as const])) },
    odometerKm: null,
    note: "",
    cautions: "on",
  });
}

describe("a job with a change that the model cannot see", () => {
  const left = { mainJet: 150, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 };
  async function needleJob(shop: ShopHandle) {
    const job = await readyToRide(shop);
    await shop.write(async (tx) => {
      const part = await tx.part.create({
        data: {
          code: "NDL-SLIM",
          name: "Slim needle",
          kind: "needle",
          searchKey: "ndl slim",
          createdAt: shop.now,
        },
      });
      await tx.move.create({
        data: { partId: part.id, kind: "use", quantityMilli: -1000, jobId: job.id, at: shop.now },
      });
    });
    await leave(shop, job, left);
    return job;
  }
  /** Another bike of the same model, of which nothing is known but its card. */
  async function sister(shop: ShopHandle, bikeId: number) {
    const { modelCardId, customerId } = await shop.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    return shop.write((tx) =>
      tx.bike.create({
        data: {
          modelCardId,
          customerId,
          searchKey: "sister",
          createdAt: shop.now,
          carburettors: { create: [{ position: 1, label: "" }] },
        },
        select: { id: true, modelCardId: true },
      }),
    );
  }

  it("teaches its bike and not its model, until a person releases it; the other shop sees nothing of it", async () => {
    const { a, b } = await twoShops();
    const job = await needleJob(a);
    const other = await sister(a, job.bikeId);
    expect((await on(a, job.bikeId)).calibration?.accepted).toBe(1);
    expect((await on(a, other.id)).calibration).toBeNull();
    const [lesson] = await listLessons(a, other.modelCardId);
    expect(lesson).toMatchObject({
      state: "held",
      heldBecause: expect.stringMatching(/Slim needle was fitted/),
    });
    const id = lesson?.id ?? 0;
    const ask = { lessonId: id, act: "release" as const, why: "Same shape as delivered" };
    await expect(judgeLesson(b, ask)).rejects.toThrow(/no such lesson/);
    await judgeLesson(a, ask);
    expect((await on(a, other.id)).calibration?.accepted).toBe(1);
    await expect(judgeLesson(a, ask)).rejects.toThrow(/“released” by now/);
    expect(await b.read.lessonVerdict.count()).toBe(0);
  });

  it("and any lesson can be taken out and put back, each with a reason that stays", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await leave(a, job, left);
    const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
    const [lesson] = await listLessons(a, modelCardId);
    const id = lesson?.id ?? 0;
    expect(lesson?.state).toBe("teaches");
    await judgeLesson(a, { lessonId: id, act: "takeOut", why: "Fuel tap was half shut" });
    expect((await on(a, job.bikeId)).calibration).toBeNull();
    expect((await listLessons(a, modelCardId))[0]).toMatchObject({
      state: "taken out",
      why: "Fuel tap was half shut",
    });
    await judgeLesson(a, { lessonId: id, act: "putBack", why: "It was another bike" });
    expect((await on(a, job.bikeId)).calibration?.accepted).toBe(1);
    await expect(
      a.write((tx) => tx.lessonVerdict.deleteMany({ where: { calibrationId: id } })),
    ).rejects.toThrow();
  });
});

describe("described parts beside a lesson", () => {
  it("are kept with it however it was ridden, as they were then; the bench counts from those of the bike", async () => {
    const { a, b } = await twoShops();
    const job = await readyToRide(a);
    const tell = (fields: Record<string, string>) =>
      describePart(a, DescribePartSchema.parse({ bikeId: String(job.bikeId), carburettor: "1", ...fields }));
    await tell({ kind: "spring", change: "exchanged", freeMm: "118", coils: "21", rateNPerM: "60" });
    await tell({ kind: "filter", name: "Foam", flowLMin: "1500", atPa: "1500" });
    const spring = { freeMm: 118, coils: 21, rateNPerM: 60, exchanged: true };
    const kept = async () => {
      const row = await a.read.calibration.findFirstOrThrow({ orderBy: { id: "desc" } });
      const { spring: its, flows } = row.regions as { spring?: unknown; flows?: unknown };
      return [row.source, its, flows];
    };
    const flows = (flowLMin: number) => ({ filter: { flowLMin, atPa: 1500 } });

    await recordLog(a, await form(a, job.id, csvOf([[1, 1.01]])));
    expect(await kept()).toEqual(["log", spring, flows(1500)]);
    const ride = { jobId: job.id, odometerKm: null, note: "" };
    const full = { throttle: "full", condition: "steady", engine: "hot", sign: "lean", note: "" } as const;
    await recordRide(a, {
      ...ride,
      version: (await jobNow(a, job.id)).version,
      good: "no",
      observations: [full],
    });
    expect(await kept()).toEqual(["felt", spring, flows(1500)]);
    const left = { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 };
    await leave(a, job, { ...left, springLengthMm: 118, springCoils: 21 });
    expect(await kept()).toEqual(["asLeft", spring, flows(1500)]);
    expect((await on(a, job.bikeId)).calibration?.regions.find((r) => r.region === "main")?.measured).toBe(
      true,
    );

    await tell({ kind: "filter", name: "Paper", flowLMin: "2400", atPa: "1500" });
    await recordIntake(a, IntakeSchema.parse({ bikeId: String(job.bikeId), observations: { 0: full } }));
    expect(await kept()).toEqual(["felt", spring, flows(2400)]);
    // What was measured with the filter of then is no measurement of the bike of now.
    expect((await on(a, job.bikeId)).calibration?.regions.find((r) => r.region === "main")?.measured).toBe(
      false,
    );
    expect(await b.read.calibration.count()).toBe(0);
  });
});

describe("a recommendation from the bike's page", () => {
  it("goes on the target sheet once per key, with every setting and the air it is for", async () => {
    const { a, b } = await twoShops();
    const bike = await foundBike(a);
    const shop = {
      ...a,
      settings: { zone: "Australia/Adelaide", latitude: -35, longitude: null, latitudeSouth: true },
    };
    const values = ask({ from: "read", temperature: "5", altitude: "1500" });
    const answer = workRecommendation(values, bike, [], { latitude: -35 }, []);
    const id = await saveRecommendation(shop, bike, values, answer, "recommend-key-1");
    expect(await saveRecommendation(shop, bike, values, answer, "recommend-key-1")).toBe(id);
    const sheet = await getSheet(a, bike.id, id);
    expect(sheet).toMatchObject({ kind: "target", conditions: { altitudeM: 1500, temperatureC: 5 } });
    expect(sheet?.values.find((v) => v.setting === "mainJet")).toMatchObject({
      value: answer.sheet.carburettors[0]?.mainJet?.chosen.size,
      how: "computed",
    });
    expect(await b.read.settingSheet.count()).toBe(0);
  });

  it("and a trip go no leaner on the highest pass than air density alone asks, and say so", async () => {
    const { a } = await twoShops();
    const bike = await foundBike(a);
    const fitted = bike.carburettors[0]?.settings.mainJet?.value ?? 0;
    const high = workRecommendation(
      ask({ from: "read", temperature: "40", altitude: "3500", work: "main" }),
      bike,
      [],
      { latitude: -35 },
      [],
    );
    const byDensity = high.sheet.carburettors[0]?.mainJet?.density?.size ?? 0;
    expect(byDensity).toBeLessThan(fitted - 2.5);
    expect(high.sheet.carburettors[0]?.mainJet?.chosen.size).toBe(byDensity);
    expect(high.sheet.refusals[0]?.remedy).toMatch(/measure lambda/);
    const trip = workTrip(
      benchSchema(TRIP_FIELDS, "metric").parse({
        mainJet: String(fitted),
        hereAltitude: "410",
        hereTemperature: "20",
        lowAltitude: "3500",
        coldest: "40",
        warmest: "40",
      }),
      bike,
      [],
      { latitude: -35 },
    );
    expect(trip.chosen.size).toBe(trip.corners[0]?.byDensity.size);
    expect(trip.held?.remedy).toMatch(/measure lambda/);
  });

  it("names each field that is nonsense and keeps what was typed for the page to show again", () => {
    const typed = { altitude: "410", humidity: "140", airbox: "wide", hole: "9", temperature: "99" };
    const read = benchSchema(RECOMMEND_FIELDS, "metric").safeParse(typed);
    expect(read.success).toBe(false);
    expect(new Set(read.error?.issues.map((i) => i.path[0]))).toEqual(
      new Set(["humidity", "airbox", "hole", "temperature"]),
    );
    for (const issue of read.error?.issues ?? []) expect(issue.message.length).toBeGreaterThan(10);
  });

  it("asks for the main jet where neither sheet nor card knows it, and refuses two pressures", async () => {
    const { a } = await twoShops();
    const bike = await foundBike(a);
    const bare = { ...bike, carburettors: [{ name: "1", position: 1, settings: {} }] };
    expect(() => workRecommendation(ask(), bare, [], { latitude: -35 }, [])).toThrow(
      /main jet fitted is not known/,
    );
    const both = ask({ from: "read", temperature: "20", station: "960", qnh: "1013" });
    expect(() => workRecommendation(both, bike, [], { latitude: -35 }, [])).toThrow(
      /Both station pressure and QNH/,
    );
  });
});
