import { beforeAll, describe, expect, it } from "vitest";
import { jetFamilies, saveTripSheet, workTrip } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { createBike } from "@/lib/data/bikes/bikes";
import { cardCalibration, keepCalibration } from "@/lib/data/bikes/calibrations";
import { pickBikes } from "@/lib/data/bikes/pick";
import { getSheet, latestSheets, saveSheet } from "@/lib/data/bikes/sheets";
import { workLog } from "@/lib/data/bikes/workLog";
import { createCustomer } from "@/lib/data/customers/customers";
import { Refusal } from "@/lib/domain/refusal";
import { benchSchema } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import { LambdaSchema } from "@/lib/schemas/benchLogs";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { readRiddenLog } from "@/lib/workers/tasks/logs";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
let bikeId: number;
beforeAll(async () => {
  shops = await twoShops();
  const customerId = await createCustomer(shops.a, CustomerSchema.parse({ name: "Ines Valdborg" }));
  bikeId = await createBike(
    shops.a,
    NewBikeSchema.parse({
      card: "new",
      customerId: String(customerId),
      make: "Orme",
      model: "Twin 750",
      displacementCc: "745",
      cylinders: "2",
      carburettors: "2",
      carburettorType: "constant vacuum",
      plate: "ORM 75",
    }),
  );
  const read = (setting: string, value: number) =>
    [1, 2].map((carburettor) => ({ carburettor, setting, value, how: "read" }));
  await saveSheet(shops.a, {
    bikeId,
    kind: "asFound",
    values: [...read("mainJet", 130), ...read("mixtureScrewTurns", 2), ...read("clipPosition", 3)],
    conditions: { altitudeM: 300, season: "spring", temperatureC: 18, humidityPercent: null },
  });
});

const found = async () => {
  const bike = await benchBike(shops.a, bikeId);
  if (!bike) throw new Error("no bike");
  return bike;
};
const values = (change: Record<string, string> = {}) =>
  benchSchema(TRIP_FIELDS, "metric").parse({
    mainJet: "130",
    screw: "2",
    convention: "bore",
    hereAltitude: "300",
    hereTemperature: "18",
    lowAltitude: "300",
    highAltitude: "1500",
    coldest: "4",
    warmest: "28",
    ...change,
  });

describe("a bike on the bench", () => {
  it("has what its newest sheet says of each carburettor, and the air of that sheet", async () => {
    const bike = await found();
    expect(bike.carburettors.map((c) => [c.name, c.settings.mainJet?.value])).toEqual([
      ["Left", 130],
      ["Right", 130],
    ]);
    expect(bike.conditions?.altitudeM).toBe(300);
    expect(bike.settingsFrom?.kind).toBe("asFound");
    expect(bike.calibration).toBeNull();
  });
  it("is among the choices; another shop sees neither", async () => {
    const [choice] = (await pickBikes(shops.a, "")).rows;
    expect(choice).toMatchObject({ value: String(bikeId), label: "Orme Twin 750" });
    expect((await pickBikes(shops.b, "")).rows).toEqual([]);
    expect(await benchBike(shops.b, bikeId)).toBeNull();
  });
});

describe("a trip's setting", () => {
  it("goes on the target sheet once per key: computed main and screw, the rest as fitted, with the worst corner's air", async () => {
    const bike = await found();
    const trip = workTrip(values(), bike, [], { latitude: -35 });
    const id = await saveTripSheet(shops.a, bike, values(), trip, "trip-key-0001");
    expect(await saveTripSheet(shops.a, bike, values(), trip, "trip-key-0001")).toBe(id);
    const sheet = await getSheet(shops.a, bikeId, id);
    const of = (setting: string) =>
      sheet?.values.filter((v) => v.setting === setting).map((v) => [v.carburettor, v.value, v.how]);
    expect(sheet?.kind).toBe("target");
    expect(of("mainJet")).toEqual([
      [1, trip.chosen.size, "computed"],
      [2, trip.chosen.size, "computed"],
    ]);
    expect(of("clipPosition")).toEqual([
      [1, 3, "read"],
      [2, 3, "read"],
    ]);
    const worst = trip.corners.find((c) => c.name === trip.chosen.worst);
    expect(sheet?.conditions).toMatchObject({
      altitudeM: worst?.place.altitudeM,
      temperatureC: worst?.place.temperatureC,
    });
    expect((await latestSheets(shops.a, bikeId)).asFound?.values).toHaveLength(6);
    expect((await latestSheets(shops.b, bikeId)).target).toBeNull();
  });
  it("takes jets from the chosen drawer, enough for both carburettors, and refuses a drawer numbered another way", async () => {
    await shops.a.write(async (tx) => {
      for (const [code, family, size, convention, free] of [
        ["B130", "Main jets, bore", 130, "bore", 1],
        ["B1325", "Main jets, bore", 132.5, "bore", 4],
        ["F130", "Main jets, flow", 130, "flow", 9],
      ] as const)
        await tx.part.create({
          data: {
            code,
            name: code,
            kind: "jet",
            family,
            sizeMilli: size * 1000,
            convention,
            onHandMilli: free * 1000,
            searchKey: code,
            createdAt: shops.a.now,
          },
        });
    });
    const [bike, families] = [await found(), await jetFamilies(shops.a)];
    const trip = workTrip(
      values({ mainFamily: "Main jets, bore", highAltitude: "300", coldest: "0", warmest: "0" }),
      bike,
      families,
      { latitude: -35 },
    );
    expect(trip.sizes.map((s) => [s.size, s.free])).toEqual([
      [130, 1],
      [132.5, 4],
    ]);
    expect(trip.drawer?.size).toBe(132.5);
    expect(() =>
      workTrip(values({ mainFamily: "Main jets, flow" }), bike, families, { latitude: -35 }),
    ).toThrow(Refusal);
    expect(await jetFamilies(shops.b)).toEqual([]);
  });
});

describe("a calibration", () => {
  const csv = `time,throttle,lambda,rpm\n${Array.from({ length: 60 }, (_, i) => `${i / 10},${i < 30 ? 20 : 98},${i < 30 ? 1.04 : 0.93},6000`).join("\n")}\n`;
  it("comes from a log, is kept once per key and is then the model card's newest", async () => {
    const [bike, input] = [await found(), LambdaSchema.parse({ csv, bike: String(bikeId) })];
    const { answer, evidence } = workLog(input, readRiddenLog(input), bike, { altitudeM: 300 });
    if (!answer.regions || !evidence) throw new Error("nothing fitted");
    const kept = { bikeId, source: "log" as const, evidence, samples: answer.steady, note: "first ride" };
    const id = await keepCalibration(shops.a, kept, "calibration-key-1");
    expect(await keepCalibration(shops.a, kept, "calibration-key-1")).toBe(id);
    const newest = (await found()).calibration;
    expect(newest).toMatchObject({ id, samples: answer.steady, bikeId, logs: 1, accepted: 0 });
    expect(newest?.regions.find((r) => r.region === "main")?.value).toBeCloseTo(
      answer.regions.find((r) => r.region === "main")?.value ?? 9,
      12,
    );
    expect(
      await shops.a.read.calibration.findMany({ where: { bikeId }, orderBy: { id: "asc" }, take: 9 }),
    ).toHaveLength(1);
    const [entry] = await shops.a.read.auditEntry.findMany({
      where: { act: "calibrated" },
      orderBy: { id: "desc" },
      take: 1,
    });
    expect(entry?.nounId).toBe(bike.modelCardId);
    const reference = { settings: {}, air: bike.baseline };
    expect(
      await cardCalibration(shops.b, bike.modelCardId, {
        id: bikeId,
        card: bike.card,
        carburettors: 2,
        reference,
      }),
    ).toBeNull();
  });
  it("changes what the trip wants, and lets it go leaner once full load was measured", async () => {
    const bike = await found();
    expect(bike.calibration).not.toBeNull();
    const [with_, without] = [
      workTrip(values(), bike, [], { latitude: -35 }),
      workTrip(values(), { ...bike, calibration: null }, [], { latitude: -35 }),
    ];
    expect(with_.corners[0]?.exact).toBeGreaterThan(without.corners[0]?.exact ?? 999);
    const high = values({ lowAltitude: "3500", highAltitude: "3500" });
    expect(workTrip(high, { ...bike, calibration: null }, [], { latitude: -35 }).held).not.toBeNull();
    expect(workTrip(high, bike, [], { latitude: -35 }).held).toBeNull();
    // Another main jet than the sheet's was never read.
    expect(workTrip({ ...high, mainJet: high.mainJet + 5 }, bike, [], { latitude: -35 }).held).not.toBeNull();
  });
  it("of a second ride is taken together with the first: the posterior narrows and lies between them", async () => {
    const before = (await found()).calibration;
    const bike = await found();
    const richer = LambdaSchema.parse({ csv: csv.replaceAll("0.93,", "0.90,"), bike: String(bikeId) });
    const { answer, evidence } = workLog(richer, readRiddenLog(richer), bike, { altitudeM: 300 });
    if (!evidence) throw new Error("nothing fitted");
    await keepCalibration(shops.a, { bikeId, source: "log", evidence, samples: answer.steady });
    const both = (await found()).calibration;
    const main = (of: typeof both) => of?.regions.find((r) => r.region === "main");
    expect(main(both)?.sigma).toBeLessThan(main(before)?.sigma ?? 0);
    expect(main(both)?.value).toBeGreaterThan(main(before)?.value ?? 0);
    expect(main(both)?.samples).toBe(2);
    expect(both).toMatchObject({ logs: 2, samples: (before?.samples ?? 0) + answer.steady });
    expect(both?.regions.find((r) => r.region === "pilot")?.samples).toBe(0);
  });
  it("is not counted again once its correction was fitted: the bigger jet found later stands where the log says it would", async () => {
    const logged = (await found()).calibration?.regions.find((r) => r.region === "main")?.value ?? 0;
    expect(logged).toBeLessThan(0);
    await saveSheet(shops.a, {
      bikeId,
      kind: "asLeft",
      values: [1, 2].flatMap((carburettor) => [
        { carburettor, setting: "mainJet", value: 137.5, how: "read" },
        { carburettor, setting: "clipPosition", value: 3, how: "read" },
        { carburettor, setting: "mixtureScrewTurns", value: 2, how: "read" },
      ]),
      conditions: { altitudeM: 300, season: "spring", temperatureC: 18, humidityPercent: null },
    });
    const after = (await found()).calibration?.regions.find((r) => r.region === "main")?.value ?? -1;
    expect(after).toBeGreaterThan(logged + 0.02);
  });
  it("that nothing sampled, or of no bike, is refused", async () => {
    const evidence = {
      kind: "wideband" as const,
      settings: {},
      air: { pressurePa: 98_000, temperatureK: 290, humidity: 0.5 },
      at: [],
    };
    await expect(keepCalibration(shops.a, { bikeId, source: "log", evidence, samples: 0 })).rejects.toThrow(
      /sampled no region/,
    );
    const sampled = { ...evidence, at: [{ throttle: 1, lambda: 0.9, sigma: 0.02 }] };
    await expect(
      keepCalibration(shops.b, { bikeId, source: "log", evidence: sampled, samples: 9 }),
    ).rejects.toThrow(/no such bike/);
  });
});
