import { demandOne } from "@/lib/db/guard";
import type { ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { placedState, shareOut } from "@/lib/domain/stock/orders";

const LINE = {
  id: true,
  orderId: true,
  quantityMilli: true,
  receivedMilli: true,
  cancelledMilli: true,
  dueOn: true,
  unitCostE4: true,
} as const;

/** States in which a line's open quantity is on order. */
export const PLACED = ["ordered", "partReceived"] as const;

/** Which open order lines a receipt without an order answers: the one due first, of two the older; the rest answers none. */
export async function sharesIn(tx: ShopTx, partId: number, quantityMilli: number) {
  const lines = await tx.orderLine.findMany({
    where: { partId, order: { state: { in: [...PLACED] } } },
    select: LINE,
    orderBy: { id: "asc" },
  });
  return shareOut(
    quantityMilli,
    lines.toSorted((a, b) => (a.dueOn ?? "9999").localeCompare(b.dueOn ?? "9999") || a.id - b.id),
  );
}

/** Notes on a line what came, and on its order what state that leaves. The part's own projections are the move's. */
export async function countArrivedIn(tx: ShopTx, lineId: number, quantityMilli: number): Promise<void> {
  const line = await tx.orderLine.findUniqueOrThrow({ where: { id: lineId }, select: LINE });
  await demandOne(
    tx.orderLine.updateMany({
      where: { id: lineId, receivedMilli: line.receivedMilli, cancelledMilli: line.cancelledMilli },
      data: { receivedMilli: { increment: quantityMilli } },
    }),
    () => new Refusal("This order has just changed.", "Look at it again.", {}, "conflict"),
  );
  await restateIn(tx, line.orderId);
}

/** Brings an order's state in line with its lines. */
export async function restateIn(tx: ShopTx, orderId: number): Promise<void> {
  const lines = await tx.orderLine.findMany({ where: { orderId }, select: LINE, orderBy: { id: "asc" } });
  await tx.purchaseOrder.update({
    where: { id: orderId },
    data: { state: placedState(lines), version: { increment: 1 } },
    select: { id: true },
  });
}
