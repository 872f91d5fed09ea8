import type { ShopHandle } from "@/lib/db/shop";
import { odometerReads } from "../bikes/odometerReads";
import { dueByDistance, dueWhy } from "../followUps/due";

const MOST = 8;
const FOLLOW_UP = {
  id: true,
  what: true,
  dueOn: true,
  dueKm: true,
  bikeId: true,
  bike: {
    select: {
      plate: true,
      odometerKm: true,
      customer: { select: { name: true } },
      modelCard: { select: { make: true, model: true } },
    },
  },
} as const;

/** So near to its distance that the estimate may have passed it (judgement, km), and so many looked through. */
const NEAR_KM = 3000;
const LOOKED_THROUGH = 200;

/** Follow-ups whose day has come, then those whose distance has, as read or as the bike's own readings estimate. */
export async function dueFollowUps(shop: ShopHandle, day: string, zone: string) {
  const [byDay, ahead] = await Promise.all([
    shop.read.followUp.findMany({
      where: { state: "due", dueOn: { lte: day } },
      select: FOLLOW_UP,
      orderBy: { dueOn: "asc" },
      take: MOST,
    }),
    shop.read.followUp.findMany({
      where: { state: "due", dueOn: { gt: day }, dueKm: { not: null }, bike: { odometerKm: { not: null } } },
      select: FOLLOW_UP,
      orderBy: { dueOn: "asc" },
      take: LOOKED_THROUGH,
    }),
  ]);
  const left = (row: (typeof ahead)[number]) => (row.dueKm ?? 0) - (row.bike.odometerKm ?? 0);
  const near = ahead
    .filter((row) => left(row) <= NEAR_KM)
    .sort((one, other) => left(one) - left(other))
    .slice(0, 2 * MOST);
  const unread = near.filter((row) => left(row) > 0).map((row) => row.bikeId);
  const reads = unread.length === 0 ? new Map() : await odometerReads(shop.read, [...new Set(unread)]);
  const byDistance = near.filter(
    (row) =>
      dueWhy(
        row,
        row.bike.odometerKm,
        dueByDistance(reads.get(row.bikeId) ?? [], row.dueKm, zone, shop),
        day,
      ) !== null,
  );
  return [...byDay, ...byDistance].slice(0, MOST);
}
