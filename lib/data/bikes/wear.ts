import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { MEASURABLES, measuredName } from "@/lib/domain/tuning/measurables";
import { measuredWear, type WearReading, wear } from "@/lib/domain/tuning/wear";
import { LIMIT_FACTS, wearLimit } from "@/lib/domain/tuning/wearLimits";
import { type BikeReading, readingsOn } from "./readings";

export interface BikeWear {
  readonly bikeId: number;
  readonly name: string;
  readonly readings: readonly WearReading[];
}

const MOST = 50;
const WEARS = MEASURABLES.filter((one) => one.kind === "wear").map((one) => one.key as string);

/**
 * Wear limits of a card against what was measured on its newest bikes: a spring by the newest sheet that measured it, guides by the
 * odometer since a step was done that inspects them, other parts by the newest reading of each on a job card.
 */
export async function wearOnCard(shop: ShopHandle, cardId: number): Promise<readonly BikeWear[]> {
  return wearOf(shop, cardId, { modelCardId: cardId });
}

/** The same of one bike. */
export async function wearOnBike(
  shop: ShopHandle,
  bike: { readonly id: number; readonly modelCardId: number },
): Promise<readonly WearReading[]> {
  const [own] = await wearOf(shop, bike.modelCardId, { id: bike.id });
  return own?.readings ?? [];
}

async function wearOf(
  shop: ShopHandle,
  cardId: number,
  where: Prisma.BikeWhereInput,
): Promise<readonly BikeWear[]> {
  const facts = await shop.read.modelFact.findMany({
    where: { modelCardId: cardId, key: { in: ["guideCheckKm", ...LIMIT_FACTS] } },
    select: { key: true, value: true, text: true, how: true },
    orderBy: { key: "asc" },
  });
  const limit = (key: string) => facts.find((f) => f.key === key)?.value ?? null;
  const [springMin, guideKm] = [limit("springFreeMinMm"), limit("guideCheckKm")];
  const bikes = await bikesOf(shop, where);
  const parts = await readingsOn(
    shop.read,
    bikes.map((bike) => bike.id),
    { measures: { in: WEARS } },
  );
  const worn = Map.groupBy(parts, (one) => one.bikeId);
  return bikes.flatMap((bike) => {
    const spring = bike.sheets[0]?.values[0]?.value ?? null;
    const since = bike.odometerKm === null ? null : bike.odometerKm - (bike.jobs[0]?.odometerKm ?? 0);
    const readings = [
      ...(springMin === null ? [] : [wear("Slide spring free length", "mm", springMin, spring, false)]),
      ...(guideKm === null
        ? []
        : [
            wear(
              bike.jobs[0] ? "Slide guide, since it was inspected" : "Slide guide, no inspection is kept",
              "km",
              guideKm,
              since,
              true,
            ),
          ]),
      ...newestOf(worn.get(bike.id) ?? []).flatMap((one) => {
        const most = wearLimit(one.measures, one.station, facts);
        const unit = MEASURABLES.find((each) => each.key === one.measures)?.unit ?? "";
        const side = one.carburettor === null ? "" : `, carburettor ${one.carburettor}`;
        const name = `${measuredName(one.measures, one.station)}${side}`;
        return most ? [measuredWear(name, unit, most, one.value)] : [];
      }),
    ];
    const name = [bike.customer.name, bike.plate].filter(Boolean).join(", ");
    return readings.length === 0 ? [] : [{ bikeId: bike.id, name, readings }];
  });
}

/** The newest reading of each part, carburettor and station. */
function newestOf(readings: readonly BikeReading[]): BikeReading[] {
  const groups = Map.groupBy(
    readings,
    (one) => `${one.measures} ${one.carburettor ?? ""} ${one.station ?? ""}`,
  );
  return [...groups.values()].flatMap((own) => own.at(-1) ?? []);
}

const bikesOf = (shop: ShopHandle, where: Prisma.BikeWhereInput) =>
  shop.read.bike.findMany({
    where,
    select: {
      id: true,
      plate: true,
      odometerKm: true,
      customer: { select: { name: true } },
      sheets: {
        where: { values: { some: { setting: "springLengthMm", how: "measured" } } },
        select: {
          values: {
            where: { setting: "springLengthMm", how: "measured" },
            select: { value: true },
            orderBy: { value: "asc" },
          },
        },
        orderBy: { id: "desc" },
        take: 1,
      },
      jobs: {
        where: { steps: { some: { state: "done", inspections: { some: { item: "slideGuides" } } } } },
        select: { odometerKm: true },
        orderBy: { id: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
