import type { ShopHandle } from "@/lib/db/shop";
import { dayOf, daysBetween } from "@/lib/domain/schedule/localTime";
import { type MeasuredLead, measuredLead } from "@/lib/domain/stock/leadTime";
import { fetched } from "../common/chunks";
import { zoneIn } from "../common/zone";

/** Older deliveries say little of how a supplier delivers now (judgement). */
const LOOK_BACK_DAYS = 730;

/**
 * How long each supplier took to deliver in the last two years, from the orders placed and what came in on them: one figure for each
 * order and day on which something came first on a line, so that a parcel of many parts counts once.
 */
export async function leadsBySupplier(
  shop: ShopHandle,
  supplierId?: number,
): Promise<Map<number, MeasuredLead>> {
  const zone = await zoneIn(shop.read);
  const since = dayOf(shop.now.getTime() - LOOK_BACK_DAYS * 86_400_000, zone);
  const orders = await shop.read.purchaseOrder.findMany({
    where: {
      orderedOn: { gte: since },
      ...(supplierId === undefined ? {} : { supplierId }),
      lines: { some: { receivedMilli: { gt: 0 } } },
    },
    select: {
      supplierId: true,
      orderedOn: true,
      lines: { where: { receivedMilli: { gt: 0 } }, select: { id: true }, orderBy: { id: "asc" }, take: 500 },
    },
    orderBy: { id: "desc" },
    take: 500,
  });
  const lines = orders.flatMap((order) => order.lines.map((line) => line.id));
  const moves = await fetched(lines, (some) =>
    shop.read.move.findMany({
      where: { orderLineId: { in: some }, kind: "receipt" },
      select: { orderLineId: true, at: true },
      orderBy: { at: "desc" },
    }),
  );
  // The latest first, so that the earliest stands.
  const cameOn = new Map(moves.map((move) => [move.orderLineId ?? 0, dayOf(move.at.getTime(), zone)]));
  const days = new Map<number, number[]>();
  for (const order of orders) {
    const came = new Set(order.lines.flatMap((line) => cameOn.get(line.id) ?? []));
    const took = [...came].map((day) => daysBetween(order.orderedOn ?? day, day)).filter((one) => one >= 0);
    days.set(order.supplierId, [...(days.get(order.supplierId) ?? []), ...took]);
  }
  return new Map(
    [...days].flatMap(([supplier, took]) => {
      const lead = measuredLead(took);
      return lead ? [[supplier, lead] as const] : [];
    }),
  );
}

/** The supplier each part is usually bought from: its usual row, else the one of the name on the part. */
export async function usualSuppliers(
  shop: ShopHandle,
  parts: readonly { readonly id: number; readonly supplier: string }[],
): Promise<Map<number, number>> {
  const only = parts.length === 1 && parts[0] ? { partId: parts[0].id } : {};
  const [usual, named] = await Promise.all([
    shop.read.partSupplier.findMany({
      where: { ...only, usual: true },
      select: { partId: true, supplierId: true },
      orderBy: { id: "desc" },
    }),
    shop.read.supplier.findMany({ select: { id: true, name: true }, orderBy: { id: "asc" } }),
  ]);
  const byName = new Map(named.map((one) => [one.name, one.id]));
  const found = new Map<number, number>();
  for (const part of parts) {
    const id = byName.get(part.supplier);
    if (id !== undefined) found.set(part.id, id);
  }
  for (const row of usual) found.set(row.partId, row.supplierId);
  return found;
}
