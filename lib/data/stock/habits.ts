import type { ShopHandle } from "@/lib/db/shop";
import { type StockPolicy, stockPolicy } from "@/lib/domain/stock/policy";

const DAY = 86_400_000;
const YEAR = 365;
/** A shorter record says nothing about a year (judgement). */
const LEAST_DAYS = 28;
const SEASON_DAYS = 91;

/** Judgement, until a shop's own figures are asked for: each is named among the reasons. */
const USUAL = { leadDays: 7, risk: 0.05, costPerOrder: 10, holdingShare: 0.2, unitCost: 5 };

/** When and how much to order of a part, from a year of its uses. Null before there is a month of them. */
export async function suggestPoint(
  shop: ShopHandle,
  part: { id: number; unit: string; leadDays: number | null },
): Promise<StockPolicy | null> {
  const since = new Date(shop.now.getTime() - YEAR * DAY);
  const [moves, first, costs] = await Promise.all([
    shop.read.move.findMany({
      where: { partId: part.id, kind: "use", at: { gte: since } },
      select: { at: true, quantityMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.move.findFirst({ where: { partId: part.id }, select: { at: true }, orderBy: { id: "asc" } }),
    shop.read.part.findUniqueOrThrow({ where: { id: part.id }, select: { averageE4: true, costE4: true } }),
  ]);
  if (moves.length === 0 || !first) return null;
  // A history entered later may be dated before the first move.
  const oldest = Math.min(first.at.getTime(), ...moves.map((move) => move.at.getTime()));
  const begin = Math.max(since.getTime(), oldest);
  const days = Math.ceil((shop.now.getTime() - begin) / DAY);
  if (days < LEAST_DAYS) return null;
  const byDay = new Map<number, number>();
  for (const move of moves) {
    const day = Math.floor((move.at.getTime() - begin) / DAY);
    byDay.set(day, (byDay.get(day) ?? 0) - move.quantityMilli);
  }
  const unitCost = (costs.averageE4 ?? costs.costE4 ?? USUAL.unitCost * 10_000) / 10_000;
  const packMilli = part.unit === "each" ? 1000 : 1;
  const policy = stockPolicy({
    uses: [...byDay].map(([day, quantityMilli]) => ({ day, quantityMilli })),
    days: days + 1,
    leadDays: part.leadDays ?? USUAL.leadDays,
    leadSd: 0,
    risk: USUAL.risk,
    costPerOrder: USUAL.costPerOrder,
    holdingPerUnitYear: Math.max(0.001, unitCost * USUAL.holdingShare),
    packMilli,
  });
  const assumed = {
    fact: `an order costs ${USUAL.costPerOrder}, holding ${USUAL.holdingShare * 100} % of cost a year${part.leadDays === null ? `, ${USUAL.leadDays} days to arrive` : ""}`,
    from: "assumed (judgement)",
  };
  // A season's worth at most: cheap parts would otherwise be ordered by the year.
  const used = moves.reduce((sum, move) => sum - move.quantityMilli, 0);
  const season = Math.max(1, Math.ceil((used * SEASON_DAYS) / (days + 1) / packMilli)) * packMilli;
  const orderMilli =
    policy.method === "reorder point" ? Math.min(policy.orderMilli, season) : policy.orderMilli;
  const capped =
    orderMilli < policy.orderMilli
      ? [{ fact: `no more than is used in ${SEASON_DAYS} days`, from: "judgement", effect: "less to order" }]
      : [];
  // Pieces come whole, so their point is the next whole piece.
  const pointMilli = part.unit === "each" ? Math.ceil(policy.pointMilli / 1000) * 1000 : policy.pointMilli;
  return { ...policy, pointMilli, orderMilli, because: [...policy.because, ...capped, assumed] };
}
