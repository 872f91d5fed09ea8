import type { ShopHandle } from "@/lib/db/shop";
import { type StockPolicy, stockPolicy } from "@/lib/domain/stock/policy";

const DAY = 86_400_000;
const YEAR = 365;

/** Judgement, until a shop's own figures are asked for: each is named among the reasons. */
const USUAL = { leadDays: 7, risk: 0.05, costPerOrder: 10, holdingShare: 0.2, unitCost: 5 };

/** When and how much to order of a part, from a year of its uses. Null before anything was used. */
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
  const begin = Math.max(since.getTime(), first.at.getTime());
  const byDay = new Map<number, number>();
  for (const move of moves) {
    const day = Math.floor((move.at.getTime() - begin) / DAY);
    byDay.set(day, (byDay.get(day) ?? 0) - move.quantityMilli);
  }
  const unitCost = (costs.averageE4 ?? costs.costE4 ?? USUAL.unitCost * 10_000) / 10_000;
  const policy = stockPolicy({
    uses: [...byDay].map(([day, quantityMilli]) => ({ day, quantityMilli })),
    days: Math.max(1, Math.ceil((shop.now.getTime() - begin) / DAY)),
    leadDays: part.leadDays ?? USUAL.leadDays,
    leadSd: 0,
    risk: USUAL.risk,
    costPerOrder: USUAL.costPerOrder,
    holdingPerUnitYear: Math.max(0.001, unitCost * USUAL.holdingShare),
    packMilli: part.unit === "each" ? 1000 : 1,
  });
  const assumed = {
    fact: `an order costs ${USUAL.costPerOrder}, holding ${USUAL.holdingShare * 100} % of cost a year${part.leadDays === null ? `, ${USUAL.leadDays} days to arrive` : ""}`,
    from: "assumed (judgement)",
  };
  // Pieces come whole, so their point is the next whole piece.
  const pointMilli = part.unit === "each" ? Math.ceil(policy.pointMilli / 1000) * 1000 : policy.pointMilli;
  return { ...policy, pointMilli, because: [...policy.because, assumed] };
}
