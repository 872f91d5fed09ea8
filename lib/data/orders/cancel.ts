import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { openOf } from "@/lib/domain/stock/orders";
import { restateIn } from "../stock/orderLines";
import { moreOnOrderIn } from "./place";
import { placedLineIn } from "./receive";

/** What is still open of a line will not come: it is on order no more. */
export async function cancelRest(
  shop: ShopHandle,
  input: { lineId: number; why: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "cancelled the rest of a line", input, async () => {
      const line = await placedLineIn(tx, input.lineId);
      await cancelIn(tx, line);
      await restateIn(tx, line.orderId);
      await audit(tx, shop, "cancelled the rest", "order", line.orderId, {
        part: line.part.code,
        openMilli: openOf(line),
        why: input.why,
      });
      return line.id;
    }),
  );
}

async function cancelIn(tx: ShopTx, line: Awaited<ReturnType<typeof placedLineIn>>): Promise<void> {
  const open = openOf(line);
  if (open === 0)
    throw new Refusal(`Nothing of ${line.part.code} is open.`, "Reload the order.", {}, "conflict");
  await demandOne(
    tx.orderLine.updateMany({
      where: { id: line.id, receivedMilli: line.receivedMilli, cancelledMilli: line.cancelledMilli },
      data: { cancelledMilli: { increment: open } },
    }),
    () => new Refusal("This order has just changed.", "Look at it again.", {}, "conflict"),
  );
  await moreOnOrderIn(tx, line.partId, -open);
}

/** Gives an order up: a draft goes, of a placed one the rest is cancelled. */
export async function cancelOrder(
  shop: ShopHandle,
  input: { orderId: number; version: number; why: string },
): Promise<"gone" | "cancelled"> {
  return shop.write(async (tx) => {
    const order = await tx.purchaseOrder.findUnique({
      where: { id: input.orderId },
      select: {
        number: true,
        state: true,
        version: true,
        lines: {
          select: { id: true, quantityMilli: true, receivedMilli: true, cancelledMilli: true },
          orderBy: { id: "asc" },
        },
      },
    });
    if (!order) throw new Refusal("There is no such order.", "Choose one from the list.", {}, "missing");
    if (order.version !== input.version)
      throw new Refusal(
        `Order ${order.number} changed while you looked at it.`,
        "Look at it again.",
        {},
        "conflict",
      );
    if (order.state === "draft") {
      await tx.orderLine.deleteMany({ where: { orderId: input.orderId } });
      await tx.purchaseOrder.delete({ where: { id: input.orderId }, select: { id: true } });
      await audit(tx, shop, "dropped", "order", input.orderId, { number: order.number, why: input.why });
      return "gone";
    }
    const open = order.lines.filter((line) => openOf(line) > 0);
    if (open.length === 0)
      throw new Refusal(
        `Nothing of order ${order.number} is open.`,
        "What came can be sent back on each part's page.",
        {},
        "conflict",
      );
    for (const line of open) await cancelIn(tx, await placedLineIn(tx, line.id));
    await restateIn(tx, input.orderId);
    await audit(tx, shop, "cancelled", "order", input.orderId, { number: order.number, why: input.why });
    return "cancelled";
  });
}

/** The supplier sends the rest later: the line stays open for another day. */
export async function postponeLine(
  shop: ShopHandle,
  input: { lineId: number; dueOn: string },
): Promise<void> {
  await shop.write(async (tx) => {
    const line = await placedLineIn(tx, input.lineId);
    if (openOf(line) === 0)
      throw new Refusal(`Nothing of ${line.part.code} is open.`, "Reload the order.", {}, "conflict");
    await tx.orderLine.update({ where: { id: line.id }, data: { dueOn: input.dueOn }, select: { id: true } });
    await tx.purchaseOrder.update({
      where: { id: line.orderId },
      data: { version: { increment: 1 } },
      select: { id: true },
    });
    await audit(tx, shop, "due day changed", "order", line.orderId, {
      part: line.part.code,
      dueOn: input.dueOn,
    });
  });
}
