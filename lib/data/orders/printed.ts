import type { ShopTx } from "@/lib/db/shop";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { openOf } from "@/lib/domain/stock/orders";
import type { PrintedOrder } from "../documents/order";
import { numberSaid } from "../shop/taxTerms";

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
  return {
    format: "throttlewright-order",
    version: 2,
    ...order,
    lines: lines.map(({ cancelledMilli, ...line }) => ({
      ...line,
      openMilli: openOf({ ...line, cancelledMilli }),
    })),
    shop: await shopOnOrder(tx),
    day,
  };
}

/** The shop as its orders name it, wherever they are printed. */
export async function shopOnOrder(db: Pick<ShopTx, "settings" | "taxTerms">): Promise<OrderOnPaper["shop"]> {
  const { legalName, name, taxRegime, ...shop } = await db.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      name: true,
      legalName: true,
      address: true,
      phone: true,
      email: true,
      taxNumber: true,
      taxRegime: true,
      locale: true,
      country: true,
      currency: true,
    },
  });
  return {
    name: legalName || name,
    ...shop,
    ...(await numberSaid(db, { taxRegime, country: shop.country })),
  };
}
