import { describe, expect, it } from "vitest";
import { saveRecommendation, workRecommendation } from "@/lib/data/bench/recommend";
import { workTrip } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { getSheet, saveSheet } from "@/lib/data/bikes/sheets";
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
  `time,throttle,lambda\n${openings
    .flatMap(([throttle, factor], k) =>
      Array.from({ length: 40 }, (_, i) =>
        [k * 4 + i / 10, throttle * 100, (targetLambda(throttle) * factor).toFixed(4)].join(","),
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
    const words = csvOf([[0.5, 1]]).replaceAll(/,[\d.]+\n/g, ",rich\n");
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

describe("a recommendation from the bike's page", () => {
  it("goes on the target sheet once per key, with every setting and the air it is for", async () => {
    const { a, b } = await twoShops();
    const bike = await foundBike(a);
    const shop = { ...a, settings: { zone: "Australia/Adelaide", latitudeSouth: true } };
    const values = ask({ from: "read", temperature: "5", altitude: "1500" });
    const answer = workRecommendation(values, bike, [], true);
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

  it("and a trip go no more than one step leaner than found on the highest pass, and say so", async () => {
    const { a } = await twoShops();
    const bike = await foundBike(a);
    const fitted = bike.carburettors[0]?.settings.mainJet?.value ?? 0;
    const high = workRecommendation(
      ask({ from: "read", temperature: "40", altitude: "3500", work: "main" }),
      bike,
      [],
      true,
    );
    expect(high.sheet.carburettors[0]?.mainJet?.chosen.size).toBe(fitted - 2.5);
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
      true,
    );
    expect(trip.chosen.size).toBe(fitted - 2.5);
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
    expect(() => workRecommendation(ask(), bare, [], true)).toThrow(/main jet fitted is not known/);
    const both = ask({ from: "read", temperature: "20", station: "960", qnh: "1013" });
    expect(() => workRecommendation(both, bike, [], true)).toThrow(/Both station pressure and QNH/);
  });
});
