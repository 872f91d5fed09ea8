import type { ShopHandle } from "@/lib/db/shop";
import { openOf, placedState } from "@/lib/domain/stock/orders";
import { PLACED } from "../stock/orderLines";

/** What must hold of orders: a sentence for each thing that does not. */
export async function orderProblems(shop: ShopHandle): Promise<string[]> {
  const [parts, orders, received] = await Promise.all([
    shop.read.part.findMany({
      select: { id: true, code: true, onOrderMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.purchaseOrder.findMany({
      select: {
        number: true,
        state: true,
        lines: {
          select: {
            id: true,
            partId: true,
            quantityMilli: true,
            receivedMilli: true,
            cancelledMilli: true,
          },
          orderBy: { id: "asc" },
        },
      },
      orderBy: { id: "asc" },
    }),
    shop.read.move.groupBy({
      by: ["orderLineId"],
      where: { orderLineId: { not: null } },
      _sum: { quantityMilli: true },
    }),
  ]);
  const came = new Map(received.map((row) => [row.orderLineId, row._sum.quantityMilli ?? 0]));
  const open = new Map<number, number>();
  const problems: string[] = [];
  for (const order of orders) {
    if (order.state !== "draft" && order.lines.length > 0 && placedState(order.lines) !== order.state)
      problems.push(`Order ${order.number} says ${order.state}, its lines say ${placedState(order.lines)}.`);
    for (const line of order.lines) {
      if (line.receivedMilli !== (came.get(line.id) ?? 0))
        problems.push(
          `Order ${order.number}: a line says ${line.receivedMilli} came, its receipts ${came.get(line.id) ?? 0}.`,
        );
      if (PLACED.some((state) => state === order.state))
        open.set(line.partId, (open.get(line.partId) ?? 0) + openOf(line));
    }
  }
  for (const part of parts)
    if (part.onOrderMilli !== (open.get(part.id) ?? 0))
      problems.push(
        `${part.code}: on order says ${part.onOrderMilli}, its open order lines ${open.get(part.id) ?? 0}.`,
      );
  return problems;
}
