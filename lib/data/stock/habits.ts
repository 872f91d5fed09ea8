import type { ShopHandle } from "@/lib/db/shop";
import { HABIT_DAYS, habitPolicy } from "@/lib/domain/stock/habit";
import type { StockPolicy } from "@/lib/domain/stock/policy";
import { leadsBySupplier, usualSuppliers } from "./leadTimes";

const DAY = 86_400_000;

/** When and how much to order of a part, from a year of its uses. Null before there is a month of them. */
export async function suggestPoint(
  shop: ShopHandle,
  part: { id: number; unit: string; leadDays: number | null },
): Promise<StockPolicy | null> {
  return (await policiesOf(shop, [part])).get(part.id) ?? null;
}

/** The same for many parts, in a fixed number of queries. */
export async function policiesOf(
  shop: ShopHandle,
  parts: readonly { id: number; unit: string; leadDays: number | null }[],
): Promise<Map<number, StockPolicy>> {
  const since = new Date(shop.now.getTime() - HABIT_DAYS * DAY);
  // One part is asked for by its id; for many the ids would be more than a statement takes.
  const only = parts.length === 1 && parts[0] ? { partId: parts[0].id } : {};
  const costOf = parts.length === 1 && parts[0] ? { id: parts[0].id } : {};
  const [moves, firsts, costs] = await Promise.all([
    shop.read.move.findMany({
      where: { ...only, kind: "use", at: { gte: since } },
      select: { partId: true, at: true, quantityMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.move.groupBy({ by: ["partId"], where: only, _min: { at: true } }),
    shop.read.part.findMany({
      where: costOf,
      select: { id: true, supplier: true, averageE4: true, costE4: true },
      orderBy: { id: "asc" },
    }),
  ]);
  // Of one part only its supplier's are read; those of many parts do not wait to be told whose.
  const [suppliers, all] = await Promise.all([
    usualSuppliers(shop, costs),
    parts.length === 1 ? null : leadsBySupplier(shop),
  ]);
  const [one] = suppliers.size === 1 ? suppliers.values() : [];
  const leads = all ?? (await leadsBySupplier(shop, one));
  const uses = Map.groupBy(moves, (move) => move.partId);
  const first = new Map(firsts.map((row) => [row.partId, row._min.at]));
  const cost = new Map(costs.map((row) => [row.id, row.averageE4 ?? row.costE4]));
  const found = new Map<number, StockPolicy>();
  for (const part of parts) {
    const firstAt = first.get(part.id);
    const own = uses.get(part.id);
    if (!firstAt || !own) continue;
    const policy = habitPolicy({
      uses: own.map((move) => ({ at: move.at.getTime(), quantityMilli: -move.quantityMilli })),
      firstAt: firstAt.getTime(),
      now: shop.now.getTime(),
      unit: part.unit,
      leadDays: part.leadDays,
      measured: leads.get(suppliers.get(part.id) ?? 0) ?? null,
      unitCostE4: cost.get(part.id) ?? null,
    });
    if (policy) found.set(part.id, policy);
  }
  return found;
}
