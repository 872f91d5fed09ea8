import { beforeAll, describe, expect, test } from "vitest";
import { benchBike, benchBikes } from "@/lib/data/bench/bikes";
import { workLog } from "@/lib/data/bench/log";
import { jetFamilies, saveTripSheet, workTrip } from "@/lib/data/bench/trip";
import { createBike } from "@/lib/data/bikes";
import { keepCalibration, latestCalibration } from "@/lib/data/calibrations";
import { createCustomer } from "@/lib/data/customers";
import { getSheet, latestSheets, saveSheet } from "@/lib/data/sheets";
import { Refusal } from "@/lib/domain/refusal";
import { benchSchema } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import { LambdaSchema } from "@/lib/schemas/benchLogs";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
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
  test("has what its newest sheet says of each carburettor, and the air of that sheet", async () => {
    const bike = await found();
    expect(bike.carburettors.map((c) => [c.name, c.settings.mainJet?.value])).toEqual([
      ["Left", 130],
      ["Right", 130],
    ]);
    expect(bike.conditions?.altitudeM).toBe(300);
    expect(bike.settingsFrom?.kind).toBe("asFound");
    expect(bike.calibration).toBeNull();
  });
  test("is among the choices; another shop sees neither", async () => {
    const [choice] = await benchBikes(shops.a, bikeId);
    expect(choice?.name).toContain("Orme Twin 750");
    expect(await benchBikes(shops.b, null)).toEqual([]);
    expect(await benchBike(shops.b, bikeId)).toBeNull();
  });
});

describe("a trip's setting", () => {
  test("goes on the target sheet once per key: computed main and screw, the rest as fitted, with the worst corner's air", async () => {
    const bike = await found();
    const trip = workTrip(values(), bike, [], true);
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
  test("takes jets from the chosen drawer, enough for both carburettors, and refuses a drawer numbered another way", async () => {
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
      true,
    );
    expect(trip.sizes.map((s) => [s.size, s.free])).toEqual([
      [130, 1],
      [132.5, 4],
    ]);
    expect(trip.drawer?.size).toBe(132.5);
    expect(() => workTrip(values({ mainFamily: "Main jets, flow" }), bike, families, true)).toThrow(Refusal);
    expect(await jetFamilies(shops.b)).toEqual([]);
  });
});

describe("a calibration", () => {
  const csv = `time,throttle,lambda\n${Array.from({ length: 60 }, (_, i) => `${i / 10},${i < 30 ? 20 : 98},${i < 30 ? 1.04 : 0.93}`).join("\n")}\n`;
  test("comes from a log, is kept once per key and is then the model card's newest", async () => {
    const [bike, input] = [await found(), LambdaSchema.parse({ csv, bike: String(bikeId) })];
    const answer = workLog(input, bike, { altitudeM: 300, latitudeSouth: true });
    if (!answer.regions) throw new Error("nothing fitted");
    const kept = {
      bikeId,
      source: "log" as const,
      regions: answer.regions,
      samples: answer.steady,
      note: "first ride",
    };
    const id = await keepCalibration(shops.a, kept, "calibration-key-1");
    expect(await keepCalibration(shops.a, kept, "calibration-key-1")).toBe(id);
    const newest = await latestCalibration(shops.a, bike.modelCardId);
    expect(newest).toMatchObject({ id, samples: answer.steady, bikeId });
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
    expect(await latestCalibration(shops.b, bike.modelCardId)).toBeNull();
  });
  test("changes what the trip wants, and lets it go leaner once full load was measured", async () => {
    const bike = await found();
    expect(bike.calibration).not.toBeNull();
    const [with_, without] = [
      workTrip(values(), bike, [], true),
      workTrip(values(), { ...bike, calibration: null }, [], true),
    ];
    expect(with_.corners[0]?.exact).toBeGreaterThan(without.corners[0]?.exact ?? 999);
    const high = values({ lowAltitude: "3500", highAltitude: "3500" });
    expect(workTrip(high, { ...bike, calibration: null }, [], true).held).not.toBeNull();
    expect(workTrip(high, bike, [], true).held).toBeNull();
  });
  test("that nothing sampled, or of no bike, is refused", async () => {
    const regions = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
      region,
      value: 0,
      sigma: 0.1,
      samples: 0,
    }));
    await expect(keepCalibration(shops.a, { bikeId, source: "log", regions, samples: 0 })).rejects.toThrow(
      /sampled no region/,
    );
    const sampled = regions.map((r) => ({ ...r, samples: 2 }));
    await expect(
      keepCalibration(shops.b, { bikeId, source: "log", regions: sampled, samples: 9 }),
    ).rejects.toThrow(/no such bike/);
  });
});
