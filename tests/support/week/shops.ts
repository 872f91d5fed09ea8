import { chance } from "@/demo/work/chance";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { nameShop } from "../invoices";
import { BREATHING, makeBike, readyToQuote } from "../quotes";
import { Bench } from "./acts";

/** The breathing package with the carburettor's work at the bench's rate, a reading that measures a setting, and a caution of its own for the snorkel. */
const WEEK: Recipe = {
  ...BREATHING,
  options: BREATHING.options.map((option) =>
    option.key === "snorkel" ? { ...option, cautions: ["Dust comes in where the road is dry."] } : option,
  ),
  operations: BREATHING.operations.map((operation) => {
    if (operation.key === "needle") return { ...operation, grade: "bench" };
    if (operation.key !== "fit-main") return operation;
    const holdPoints = operation.holdPoints.map((hold) => ({ ...hold, measures: "floatHeightMm" as const }));
    return { ...operation, grade: "bench", holdPoints };
  }),
};

export interface WeekShop {
  readonly bench: Bench;
  readonly packageId: number;
  /** Three bikes; the owner of the second has a discount. */
  readonly bikes: readonly [number, number, number];
  readonly coin: number;
}

/** A shop at the beginning of the week: its rates, its customers and bikes, its drawer. */
export async function weekShop(
  shop: ShopHandle,
  zone: string,
  inclusive: boolean,
  seed: number,
): Promise<WeekShop> {
  const luck = chance(seed);
  await nameShop(shop, { pricesIncludeTax: inclusive });
  const { bikeId } = await readyToQuote(shop, 3);
  const second = await makeBike(shop, "Oda Fenn");
  const third = await makeBike(shop, "Teo Marrick");
  const bikes = [bikeId, second.bikeId, third.bikeId] as const;
  const { cashRoundingMinor } = await shop.write(async (tx) => {
    await tx.labourGrade.updateMany({ data: { ratePerHourMinor: luck.between(9_000, 12_999) } });
    await tx.labourGrade.create({
      data: {
        code: "bench",
        name: "Bench",
        ratePerHourMinor: luck.between(13_000, 15_999),
        costPerHourMinor: 5_100,
      },
    });
    for (const [at, id] of bikes.entries()) {
      const { customerId } = await tx.bike.update({
        where: { id },
        data: { plate: `SP ${at}7`, frameNumber: `TD58-${at}41`, odometerKm: 20_000 + 3_000 * at },
      });
      const discount = at === 1 ? { discountBp: 750, discountClass: "Club" } : {};
      await tx.customer.update({
        where: { id: customerId },
        data: { address: `${at + 3} Ridge Road`, ...discount },
      });
    }
    for (const part of await tx.part.findMany({ where: { kind: "jet" }, orderBy: { id: "asc" } }))
      await tx.part.update({
        where: { id: part.id },
        data: { priceE4: luck.between(0, 2) === 0 ? luck.between(60_000, 120_000) : null },
      });
    // One part is zero-rated, so that documents carry two tax groups.
    await tx.part.update({ where: { code: "BF-20" }, data: { taxCategory: "Z", supplier: "Gale Filters" } });
    return tx.settings.update({
      where: { id: 1 },
      data: {
        sundriesBp: 275,
        sundriesMaxMinor: inclusive ? 900 : null,
        depositBp: 2_500,
        billingUnit: inclusive ? "tenths" : "minutes",
        stockCosting: "average",
      },
    });
  });
  const packageId = await createPackage(shop, { code: "WEEK", name: "Breathing by two rates", summary: "" });
  const revision = await addPackageRevision(shop, { packageId, recipe: WEEK });
  await publishRevision(shop, { revisionId: revision.id, version: 1 });
  return { bench: new Bench(shop, zone, luck), packageId, bikes, coin: cashRoundingMinor };
}
