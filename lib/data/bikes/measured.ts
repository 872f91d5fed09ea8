import type { ShopHandle } from "@/lib/db/shop";
import { type Trend, trendsOf } from "@/lib/domain/sheets/trend";
import { LIMIT_FACTS, type WearLimit, wearLimit } from "@/lib/domain/tuning/wearLimits";
import { readingsOn } from "./readings";

export interface MeasuredTrend extends Trend {
  /** What the model card sets; null where it sets none. */
  readonly limit: WearLimit | null;
}

/** What readings on job cards tell of a bike over the years, against its model card's limits; null where there is no such bike. */
export async function measuredOnBike(shop: ShopHandle, bikeId: number) {
  const bike = await shop.read.bike.findUnique({
    where: { id: bikeId },
    select: {
      id: true,
      modelCardId: true,
      plate: true,
      customer: { select: { name: true } },
      carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } },
      modelCard: {
        select: {
          make: true,
          model: true,
          facts: {
            where: { key: { in: [...LIMIT_FACTS] } },
            select: { key: true, value: true, text: true, how: true },
            orderBy: { id: "asc" },
          },
        },
      },
    },
  });
  if (!bike) return null;
  const { facts, ...modelCard } = bike.modelCard;
  const trends = trendsOf(await readingsOn(shop.read, [bikeId]));
  return {
    ...bike,
    modelCard,
    trends: trends.map(
      (trend): MeasuredTrend => ({ ...trend, limit: wearLimit(trend.measures, trend.station, facts) }),
    ),
  };
}
