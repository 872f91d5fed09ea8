import { beforeAll, describe, expect, it } from "vitest";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { createBike, getBike } from "@/lib/data/bikes/bikes";
import { getSheet, latestSheets, listSheets, saveSheet } from "@/lib/data/bikes/sheets";
import { airOfSheet } from "@/lib/data/common/air";
import { createCustomer } from "@/lib/data/customers/customers";
import { saveSettings } from "@/lib/data/quotes/switchTax";
import { weatherSpot } from "@/lib/domain/air/places";
import { Refusal } from "@/lib/domain/refusal";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { SheetSchema } from "@/lib/schemas/sheets";
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
      odometerKm: "1000",
    }),
  );
});

const jet = (value: number, carburettor = 1, how = "measured") => ({
  carburettor,
  setting: "mainJet",
  value,
  how,
});

describe("a sheet's form", () => {
  it("leaves blank settings out and wants to know how the others are known", () => {
    const read = SheetSchema.parse({
      bikeId: "1",
      kind: "asFound",
      values: { "1": { mainJet: "142,5", pilotJet: " " }, "2": { mainJet: "140" } },
      how: { "1": { mainJet: "read" }, "2": { mainJet: "assumed" } },
    });
    expect(read.values).toEqual([
      { carburettor: 1, setting: "mainJet", value: 142.5, how: "read" },
      { carburettor: 2, setting: "mainJet", value: 140, how: "assumed" },
    ]);
    const wrong = SheetSchema.safeParse({
      bikeId: "1",
      kind: "asFound",
      values: { "1": { mainJet: "1425", pilotJet: "40" } },
      how: { "1": { pilotJet: "computed" } },
    });
    expect(wrong.error?.issues.map((issue) => issue.path.join("."))).toEqual([
      "values.1.mainJet",
      "how.1.pilotJet",
    ]);
    expect(wrong.error?.issues[0]?.message).toContain("40 to 300");
  });
  it("with nothing filled in, or of the target, is refused", () => {
    expect(SheetSchema.safeParse({ bikeId: "1", kind: "asFound" }).error?.issues[0]?.message).toContain(
      "Nothing is filled in",
    );
    expect(
      SheetSchema.safeParse({
        bikeId: "1",
        kind: "target",
        values: { "1": { mainJet: "140" } },
        how: { "1": { mainJet: "read" } },
      }).success,
    ).toBe(false);
  });
});

describe("a setting sheet", () => {
  it("is recorded once per key; the newest of each kind is what the bike has", async () => {
    const { a, b } = shops;
    const save = (main: number) =>
      saveSheet(a, {
        bikeId,
        kind: "asFound",
        values: [jet(main), jet(main, 2)],
        key: "sheet-key-1",
      });
    const first = await save(140);
    expect(await save(140)).toBe(first);
    await expect(save(150)).rejects.toMatchObject({ kind: "repeated" });
    const second = await saveSheet(a, {
      bikeId,
      kind: "asFound",
      values: [jet(145)],
      note: "after the ride",
    });
    await saveSheet(a, {
      bikeId,
      kind: "target",
      values: [jet(142.5, 1, "computed")],
      calculation: { whole: "answer" },
    });
    const latest = await latestSheets(a, bikeId);
    expect(latest.asFound).toMatchObject({ id: second, note: "after the ride", values: [{ value: 145 }] });
    expect(latest.target?.values[0]?.how).toBe("computed");
    expect(latest.asLeft).toBeNull();
    expect((await listSheets(a, bikeId)).rows.map((row) => row.id)).toEqual([second + 1, second, first]);
    expect(await getSheet(a, bikeId, first)).toMatchObject({
      takenBy: "Test Owner",
      bike: { modelCard: { model: "Twin 750" } },
    });
    expect(await getSheet(a, bikeId + 1, first)).toBeNull();
    expect(await latestSheets(b, bikeId)).toEqual({ asFound: null, target: null, asLeft: null });
  });

  it("with a value outside its limits saves nothing and names the field", async () => {
    const before = (await listSheets(shops.a, bikeId)).rows.length;
    const refusal = await saveSheet(shops.a, {
      bikeId,
      kind: "asLeft",
      values: [jet(140), jet(301, 2)],
    }).catch((cause: unknown) => cause);
    expect(refusal).toBeInstanceOf(Refusal);
    expect((refusal as Refusal).message).toBe("Main jet, Right is 301, outside 40 to 300: enter one inside.");
    expect(Object.keys((refusal as Refusal).fields)).toEqual(["values.2.mainJet"]);
    expect((await listSheets(shops.a, bikeId)).rows).toHaveLength(before);
  });

  it("for a bike or job that is not there is refused", async () => {
    await expect(saveSheet(shops.b, { bikeId, kind: "asFound", values: [jet(140)] })).rejects.toThrow(
      "no such bike",
    );
    await expect(
      saveSheet(shops.a, { bikeId, jobId: 99, kind: "asFound", values: [jet(140)] }),
    ).rejects.toThrow("no such job");
    await expect(saveSheet(shops.a, { bikeId, kind: "asFound", values: [] })).rejects.toThrow("no setting");
  });

  it("moves the bike's odometer, asks about a lower one, and leaves a half-typed edit valid", async () => {
    const { a } = shops;
    await saveSheet(a, { bikeId, kind: "asFound", values: [jet(140)], odometerKm: 1500 });
    const lower = { bikeId, kind: "asFound", values: [jet(140)], odometerKm: 1400 } as const;
    await expect(saveSheet(a, lower)).rejects.toMatchObject({
      message: expect.stringContaining("lower than"),
      fields: { odometerRight: expect.any(String) },
    });
    expect(await getBike(a, bikeId)).toMatchObject({ odometerKm: 1500, version: 1 });
  });
});

describe("the air of a sheet", () => {
  it("is typical of the month at the shop's latitude and longitude where nobody measured it, and what was measured wins", async () => {
    const { a, b } = shops;
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { latitude: 60, longitude: 11 } }));
    const home = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    const typical = await saveSheet(a, { bikeId, kind: "asFound", values: [jet(140)] });
    const told = (await getSheet(a, bikeId, typical))?.conditions;
    expect(told).toMatchObject({ month: expect.any(Number), temperatureC: null });
    const air = airOfSheet(told, weatherSpot(home));
    expect(air?.assumed).toBe(true);
    expect(air?.temperatureK).not.toBeCloseTo(airOfSheet(told, { latitude: 60 })?.temperatureK ?? 0);
    const measuredAir = { temperatureC: 4, pressureHpa: 991, humidityPercent: 80 };
    const measured = await saveSheet(a, { bikeId, kind: "asFound", values: [jet(140)], measuredAir });
    const bike = await benchBike(a, bikeId);
    expect(bike?.baseline).toMatchObject({ assumed: false, pressurePa: 99_100 });
    expect((await getSheet(a, bikeId, measured))?.conditions).toMatchObject(measuredAir);
    expect(await b.read.settingSheet.count()).toBe(0);
  });
  it("follows a place chosen in Settings; an unknown place and half of the degrees are refused by their field", async () => {
    const { a } = shops;
    const change = async (typed: { place?: string; latitude?: number | null; longitude?: number | null }) => {
      const { version, taxRegime, taxNumber, pricesIncludeTax } = await a.read.settings.findUniqueOrThrow({
        where: { id: 1 },
      });
      await saveSettings(a, { version, taxRegime, taxNumber, pricesIncludeTax, ...typed });
      return a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    };
    expect(await change({ place: "Adelaide" })).toMatchObject({ latitude: -34.9, latitudeSouth: true });
    expect(await change({ latitude: 59.9, longitude: 10.8 })).toMatchObject({
      latitude: 59.9,
      latitudeSouth: false,
    });
    expect(await change({ place: "" })).toMatchObject({ latitude: 59.9, longitude: 10.8 });
    await expect(change({ place: "Nowhere" })).rejects.toMatchObject({
      fields: { place: expect.any(String) },
    });
    await expect(change({ latitude: 3 })).rejects.toMatchObject({
      fields: { longitude: expect.any(String) },
    });
  });
});
