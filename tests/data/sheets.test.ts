import { beforeAll, describe, expect, it } from "vitest";
import { createBike, getBike } from "@/lib/data/bikes/bikes";
import { getSheet, latestSheets, listSheets, saveSheet } from "@/lib/data/bikes/sheets";
import { createCustomer } from "@/lib/data/customers/customers";
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

  it("moves the bike's odometer up, never down, and leaves a half-typed edit valid", async () => {
    const { a } = shops;
    await saveSheet(a, { bikeId, kind: "asFound", values: [jet(140)], odometerKm: 1500 });
    await saveSheet(a, { bikeId, kind: "asFound", values: [jet(140)], odometerKm: 1400 });
    expect(await getBike(a, bikeId)).toMatchObject({ odometerKm: 1500, version: 1 });
  });
});
