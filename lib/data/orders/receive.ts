import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { openOf } from "@/lib/domain/stock/orders";
import { quantityText } from "@/lib/schemas/quantity";
import { zoneIn } from "../common/zone";
import { demandMayCost } from "../stock/mayCost";
import { recordMoveIn } from "../stock/moves";
import { PLACED } from "../stock/orderLines";
import { demandRow } from "../stock/quantity";

export interface Delivery {
  orderId: number;
  /** The delivery note's number. */
  why?: string | undefined;
  lines: readonly {
    lineId: number;
    quantityMilli: number;
    unitCostE4?: number | null | undefined;
    /** Where it is put; the part's usual bin unless another is named. */
    bin?: string | undefined;
  }[];
  key?: string | undefined;
}

/** A cost that came otherwise than ordered, and what it did to the average. */
export interface PriceDifference {
  code: string;
  orderedE4: number | null;
  cameE4: number;
  averageBeforeE4: number | null;
  averageE4: number | null;
}

export interface Received {
  differences: PriceDifference[];
  /** Jobs that waited for it and hold it now. */
  jobs: string[];
  /** Nothing is open any more. */
  whole: boolean;
}

const LINE = {
  id: true,
  orderId: true,
  partId: true,
  quantityMilli: true,
  receivedMilli: true,
  cancelledMilli: true,
  unitCostE4: true,
  order: { select: { number: true, state: true, supplierId: true } },
  part: { select: { code: true, unit: true, averageE4: true } },
} as const;

export async function placedLineIn(tx: ShopTx, id: number) {
  const line = await tx.orderLine.findUnique({ where: { id }, select: LINE });
  if (!line) throw new Refusal("This line is gone.", "Reload the order.", {}, "missing");
  if (!PLACED.some((state) => state === line.order.state))
    throw new Refusal(
      `Order ${line.order.number} is ${line.order.state === "draft" ? "not placed yet" : "closed"}.`,
      line.order.state === "draft"
        ? "Place it first, or receive the part on its own page."
        : "Receive the part on its own page.",
      {},
      "conflict",
    );
  return line;
}

/** Takes a delivery in, all of it or nothing: one receipt for each line that came. */
export async function receiveOrder(shop: ShopHandle, delivery: Delivery): Promise<Received> {
  for (const came of delivery.lines) demandMayCost(shop, came.unitCostE4, `lines.${came.lineId}.cost`);
  return shop.write((tx) =>
    once(tx, shop, "received a delivery", delivery, async (): Promise<Received> => {
      if (delivery.lines.length === 0)
        throw new Refusal("Nothing is entered.", "Enter how much of at least one line came.");
      const today = dayOf(shop.now.getTime(), await zoneIn(tx));
      const differences: PriceDifference[] = [];
      const jobs = new Set<string>();
      for (const came of delivery.lines) {
        const line = await placedLineIn(tx, came.lineId);
        if (line.orderId !== delivery.orderId)
          throw new Refusal("This line is of another order.", "Reload the order.");
        demandRow(came.quantityMilli, line.part, `lines.${came.lineId}.quantity`);
        const open = openOf(line);
        if (came.quantityMilli > open)
          throw new Refusal(
            `Only ${quantityText(open, line.part.unit)} of ${line.part.code} is open on order ${line.order.number}, and ${quantityText(came.quantityMilli, line.part.unit)} is entered.`,
            "Receive what was ordered here, and what came beyond it on the part's own page.",
            { [`lines.${came.lineId}.quantity`]: `At most ${quantityText(open, line.part.unit)}.` },
          );
        const costE4 = came.unitCostE4 ?? line.unitCostE4;
        const { filled } = await recordMoveIn(tx, shop, {
          partId: line.partId,
          kind: "receipt",
          quantityMilli: came.quantityMilli,
          unitCostE4: costE4,
          bin: came.bin,
          why: [`order ${line.order.number}`, delivery.why].filter(Boolean).join(", "),
          orderLineId: line.id,
        });
        for (const one of filled) jobs.add(one.jobNumber);
        if (costE4 !== null)
          await tx.partSupplier.updateMany({
            where: { partId: line.partId, supplierId: line.order.supplierId },
            data: { costE4, pricedOn: today },
          });
        if (costE4 !== null && costE4 !== line.unitCostE4) {
          const after = await tx.part.findUniqueOrThrow({
            where: { id: line.partId },
            select: { averageE4: true },
          });
          differences.push({
            code: line.part.code,
            orderedE4: line.unitCostE4,
            cameE4: costE4,
            averageBeforeE4: line.part.averageE4,
            averageE4: after.averageE4,
          });
        }
      }
      const order = await tx.purchaseOrder.findUniqueOrThrow({
        where: { id: delivery.orderId },
        select: { state: true, number: true },
      });
      await audit(tx, shop, "received", "order", delivery.orderId, {
        number: order.number,
        lines: delivery.lines.length,
        why: delivery.why ?? "",
      });
      return { differences, jobs: [...jobs], whole: order.state === "received" };
    }),
  );
}
