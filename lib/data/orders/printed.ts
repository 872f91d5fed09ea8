import type { ShopTx } from "@/lib/db/shop";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { openOf } from "@/lib/domain/stock/orders";

/** What an order said when it was placed: kept with the letter that told it, since the order itself goes on changing. */
export interface PrintedOrder extends OrderOnPaper {
  readonly format: "throttlewright-order";
  readonly version: 1;
}

/** An order out of a letter; only `printedOrderIn` writes there. */
export function storedOrder(json: unknown): PrintedOrder {
  const found = json as PrintedOrder | null;
  if (found?.format !== "throttlewright-order") throw new Error("This is not a printed order.");
  return found;
}

/** An order as its paper says it now. `day` is today. The supplier's own prices stand on it, whoever places it. */
export async function printedOrderIn(tx: ShopTx, orderId: number, day: string): Promise<PrintedOrder> {
  const { lines, ...order } = await tx.purchaseOrder.findUniqueOrThrow({
    where: { id: orderId },
    select: {
      number: true,
      state: true,
      orderedOn: true,
      note: true,
      supplier: { select: { name: true, address: true, email: true, customerNumber: true } },
      lines: {
        select: {
          code: true,
          quantityMilli: true,
          receivedMilli: true,
          cancelledMilli: true,
          unitCostE4: true,
          dueOn: true,
          part: { select: { code: true, name: true, unit: true } },
        },
        orderBy: { id: "asc" },
        take: 1000,
      },
    },
  });
  const { legalName, name, ...shop } = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      name: true,
      legalName: true,
      address: true,
      phone: true,
      email: true,
      taxNumber: true,
      locale: true,
      country: true,
      currency: true,
    },
  });
  return {
    format: "throttlewright-order",
    version: 1,
    ...order,
    lines: lines.map(({ cancelledMilli, ...line }) => ({
      ...line,
      openMilli: openOf({ ...line, cancelledMilli }),
    })),
    shop: { name: legalName || name, ...shop },
    day,
  };
}
