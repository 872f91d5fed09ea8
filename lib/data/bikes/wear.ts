import type { ShopHandle } from "@/lib/db/shop";
import { type WearReading, wear } from "@/lib/domain/tuning/wear";

export interface BikeWear {
  readonly bikeId: number;
  readonly name: string;
  readonly readings: readonly WearReading[];
}

const MOST = 50;

/** Wear limits of a card against what was measured on its newest bikes: spring by the newest sheet that measured it, guides by the odometer since a step was done that inspects them. */
export async function wearOnCard(shop: ShopHandle, cardId: number): Promise<readonly BikeWear[]> {
  const facts = await shop.read.modelFact.findMany({
    where: { modelCardId: cardId, key: { in: ["springFreeMinMm", "guideCheckKm"] } },
    select: { key: true, value: true },
    orderBy: { key: "asc" },
  });
  const limit = (key: string) => facts.find((f) => f.key === key)?.value ?? null;
  const [springMin, guideKm] = [limit("springFreeMinMm"), limit("guideCheckKm")];
  if (springMin === null && guideKm === null) return [];
  const bikes = await shop.read.bike.findMany({
    where: { modelCardId: cardId },
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
  return bikes.map((bike) => {
    const spring = bike.sheets[0]?.values[0]?.value ?? null;
    const since = bike.odometerKm === null ? null : bike.odometerKm - (bike.jobs[0]?.odometerKm ?? 0);
    return {
      bikeId: bike.id,
      name: [bike.customer.name, bike.plate].filter(Boolean).join(", "),
      readings: [
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
      ],
    };
  });
}
