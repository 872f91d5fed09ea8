import { saveSheet } from "@/lib/data/bikes/sheets";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import type { ShopHandle } from "@/lib/db/shop";
import type { Access, Operation, Option, Recipe } from "@/lib/domain/packages/recipe";

const access = (key: string, openMinutes: number, closeMinutes: number, needs: string[]): Access => ({
  key,
  name: key,
  openMinutes,
  closeMinutes,
  needs,
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
});
const operation = (
  key: string,
  minutes: number,
  grade: string,
  accesses: string[],
  more: Partial<Operation>,
): Operation => ({
  key,
  name: key,
  instruction: "",
  minutes,
  grade,
  accesses,
  after: [],
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: [],
  ...more,
});
const option = (key: string, operations: string[], more: Partial<Option> = {}): Option => ({
  key,
  group: "all",
  name: `Option ${key}`,
  plain: "",
  operations,
  parts: [],
  changes: [],
  cautions: [],
  preset: true,
  roadUse: false,
  ...more,
});

/**
 * Work of two grades whose only order is cut, jet, breather, with both grades opening something: 34 min of workshop work and
 * 21 min of its opening and closing (seat 9 + 12), 10 min of bench work and 18 min of its own (tilt 5 + 6, bowl 3 + 4).
 */
export const ROAD: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [{ key: "all", name: "All", choose: "any" }],
  options: [
    option("cut", ["cut"], { changes: [{ setting: "airboxOpeningMm", change: "set", value: 48 }] }),
    option("jet", ["jet"], {
      changes: [{ setting: "mainJet", change: "computed" }],
      parts: [{ kind: "jet", setting: "mainJet", family: "Round main", quantityMilli: 1000 }],
    }),
    option("breather", ["breather"]),
    option("check", ["check"], { fixedPriceMinor: 4_567 }),
  ],
  operations: [
    operation("cut", 28, "workshop", ["seat"], {}),
    operation("jet", 10, "bench", ["bowl"], { after: ["cut"] }),
    operation("breather", 6, "workshop", ["seat"], {
      after: ["jet"],
      parts: [
        { kind: "part", code: "BF-20", quantityMilli: 1000 },
        { kind: "part", code: "TL-M", quantityMilli: 1500 },
      ],
    }),
    operation("check", 30, "workshop", ["seat"], {}),
  ],
  accesses: [access("seat", 9, 12, []), access("tilt", 5, 6, ["seat"]), access("bowl", 3, 4, ["tilt"])],
  rules: [],
};

/** The package published in a shop that has a second labour grade, its parts on the shelf, and 7.5 % off for everybody's class. */
export async function roadShop(shop: ShopHandle, rates: { workshop: number; bench: number }, recipe = ROAD) {
  await shop.write(async (tx) => {
    await tx.labourGrade.updateMany({
      where: { code: "workshop" },
      data: { ratePerHourMinor: rates.workshop },
    });
    await tx.labourGrade.create({
      data: { code: "bench", name: "Bench", ratePerHourMinor: rates.bench, costPerHourMinor: 4_000 },
    });
    const base = { createdAt: shop.now, searchKey: "x", supplier: "Own drawer" };
    for (const size of [130, 132.5, 135, 137.5, 140, 142.5, 145, 147.5, 150, 152.5, 155, 157.5, 160])
      await tx.part.create({
        data: {
          ...base,
          code: `RM-${size}`,
          name: `Main jet ${size}`,
          kind: "jet",
          family: "Round main",
          sizeMilli: size * 1000,
          convention: "bore",
          costE4: 41_735,
        },
      });
    await tx.part.create({
      data: { ...base, code: "BF-20", name: "Breather filter", kind: "filter", costE4: 123_456 },
    });
    await tx.part.create({
      data: { ...base, code: "TL-M", name: "Threadlocker", kind: "chemical", unit: "ml", priceE4: 12_375 },
    });
  });
  const packageId = await createPackage(shop, { code: "ROAD", name: "Road breathing", summary: "" });
  const revision = await addPackageRevision(shop, { packageId, recipe });
  await publishRevision(shop, { revisionId: revision.id, version: 1 });
  return packageId;
}

export interface RoadBike {
  readonly make: string;
  readonly model: string;
  readonly displacementCc: number;
  readonly carburettors: number;
  /** Null: nobody knows what is fitted. */
  readonly mainJet: number | null;
}
/** Three bikes of three model cards: one carburettor, two, and one of which nothing is known. */
export const ROAD_BIKES: readonly RoadBike[] = [
  { make: "Tarrant", model: "Drover 580", displacementCc: 578, carburettors: 1, mainJet: 137.5 },
  { make: "Orme", model: "Twin 750", displacementCc: 750, carburettors: 2, mainJet: 137.5 },
  { make: "Kestrel", model: "Trail 400", displacementCc: 400, carburettors: 1, mainJet: null },
];

export async function roadBike(shop: ShopHandle, bike: RoadBike, discountBp: number): Promise<number> {
  const { mainJet, carburettors } = bike;
  const places = Array.from({ length: carburettors }, (_, n) => n + 1);
  const made = await shop.write(async (tx) => {
    const at = { searchKey: "x", createdAt: shop.now };
    const customer = await tx.customer.create({
      data: { name: "Ines Valdborg", discountBp, discountClass: "Club", ...at },
    });
    const card = await tx.modelCard.create({
      data: {
        make: bike.make,
        model: bike.model,
        yearFrom: 2000,
        displacementCc: bike.displacementCc,
        carburettors,
        carburettorType: "constant vacuum",
        facts: {
          create: [
            ...(mainJet === null ? [] : [{ key: "deliveredMainJet", value: mainJet, how: "read" as const }]),
            { key: "boreMm", value: 40, how: "measured" as const },
            { key: "jetConvention", text: "bore", how: "read" as const },
          ],
        },
        ...at,
      },
    });
    return tx.bike.create({
      data: {
        customerId: customer.id,
        modelCardId: card.id,
        year: 2006,
        carburettors: { create: places.map((position) => ({ position, label: `No. ${position}` })) },
        ...at,
      },
    });
  });
  if (mainJet !== null)
    await saveSheet(shop, {
      bikeId: made.id,
      kind: "asFound",
      values: places.map((carburettor) => ({ carburettor, setting: "mainJet", value: mainJet, how: "read" })),
    });
  return made.id;
}
