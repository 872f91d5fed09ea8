import type { ShopHandle } from "@/lib/db/shop";
import { type Trend, trendsOf } from "@/lib/domain/sheets/trend";
import { LIMIT_FACTS, type WearLimit, wearLimit } from "@/lib/domain/tuning/wearLimits";

export interface MeasuredTrend extends Trend {
  /** What the model card sets; null where it sets none. */
  readonly limit: WearLimit | null;
}

/** Readings that are looked back on. */
const MOST = 500;

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
  const rows = await shop.read.reading.findMany({
    where: { value: { not: null }, holdPoint: { measures: { not: "" }, step: { job: { bikeId } } } },
    select: {
      id: true,
      at: true,
      value: true,
      inside: true,
      carburettor: true,
      holdPoint: {
        select: {
          measures: true,
          station: true,
          carburettor: true,
          step: { select: { job: { select: { id: true, number: true, odometerKm: true } } } },
        },
      },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
  const { facts, ...modelCard } = bike.modelCard;
  const trends = trendsOf(
    rows.toReversed().flatMap(({ holdPoint, value, ...reading }) => {
      const { job } = holdPoint.step;
      if (value === null) return [];
      return [
        {
          ...reading,
          value,
          measures: holdPoint.measures,
          station: holdPoint.station,
          carburettor: holdPoint.carburettor ?? reading.carburettor,
          odometerKm: job.odometerKm,
          jobId: job.id,
          jobNumber: job.number,
        },
      ];
    }),
  );
  return {
    ...bike,
    modelCard,
    trends: trends.map(
      (trend): MeasuredTrend => ({ ...trend, limit: wearLimit(trend.measures, trend.station, facts) }),
    ),
  };
}
