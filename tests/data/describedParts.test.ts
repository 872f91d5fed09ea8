import { expect, it } from "vitest";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { describedParts, describePart } from "@/lib/data/bikes/describedParts";
import { Refusal } from "@/lib/domain/refusal";
import { DescribePartSchema } from "@/lib/schemas/describedParts";
import { makeBike } from "../support/quotes";
import { twoShops } from "../support/shops";

it("a described part is kept with a sheet of its figures, earlier words stay, and only in its shop", async () => {
  const { a, b } = await twoShops();
  const { bikeId } = await makeBike(a, "Ines Valdborg");
  const said = (fields: Record<string, string>) =>
    DescribePartSchema.parse({ bikeId: String(bikeId), carburettor: "1", ...fields });
  const holes = { ...said({ kind: "liftHoles", holes: "2.3; 2.8" }), key: "one" };
  expect(await describePart(a, holes)).toBe(await describePart(a, holes));
  await describePart(a, said({ kind: "filter", name: "Oiled foam" }));
  await describePart(a, said({ kind: "liftHoles", holes: "2.8; 2.8" }));
  expect((await describedParts(a.read, bikeId)).map((one) => one.words)).toEqual([
    "2.8 mm, 2.8 mm",
    "Oiled foam: flow not known",
    "2.3 mm, 2.8 mm",
  ]);
  const bike = await benchBike(a, bikeId);
  expect(bike?.carburettors[0]?.settings.liftHoleMm).toEqual({ value: 2.8, how: "measured" });
  expect(bike?.carburettors[0]?.settings.mainJet?.value).toBe(137.5);
  expect(await b.read.fittedPart.count()).toBe(0);
  expect(await describedParts(b.read, bikeId)).toEqual([]);
  const other = said({ kind: "filter", name: "Foam" });
  await expect(describePart(a, { ...other, carburettor: 2 })).rejects.toThrow(Refusal);
  await expect(describePart(b, other)).rejects.toThrow("no such carburettor");
});

it("a figure of zero is refused at its field: blank is what is not known", () => {
  const said = (fields: Record<string, string>) =>
    DescribePartSchema.safeParse({ bikeId: "1", carburettor: "1", ...fields }).error?.issues.map(
      ({ path, message }) => `${path.join(".")}: ${message}`,
    );
  const words = "Enter a number above zero, or leave it blank.";
  expect(said({ kind: "spring", change: "exchanged", freeMm: "118", rateNPerM: "0" })).toEqual([
    `rateNPerM: ${words}`,
  ]);
  expect(said({ kind: "filter", name: "Foam", flowLMin: "0", atPa: "-1" })).toEqual([
    `flowLMin: ${words}`,
    `atPa: ${words}`,
  ]);
  expect(said({ kind: "spring", change: "exchanged", freeMm: "118", rateNPerM: "" })).toBeUndefined();
});
