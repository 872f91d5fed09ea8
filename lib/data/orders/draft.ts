import { once } from "@/lib/db/once";
import { audit, nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { demandMayCost } from "../stock/mayCost";
import { demandQuantity, demandRow } from "../stock/quantity";
import { offerIn } from "./offers";

export interface LineInput {
  partId: number;
  quantityMilli: number;
  supplierId?: number | undefined;
  jobId?: number | undefined;
  why?: string | undefined;
}

/** Puts lines on the drafts of their suppliers, one draft each. Returns the orders' ids, in the order of the lines. */
export async function addToDrafts(
  shop: ShopHandle,
  lines: readonly LineInput[],
  key?: string,
): Promise<number[]> {
  const answer = await shop.write((tx) =>
    once(tx, shop, "put lines on a draft", { lines, key }, async () => {
      if (lines.length === 0) throw new Refusal("No line is chosen.", "Tick at least one part.");
      const orders = new Set<number>();
      for (const line of lines) orders.add(await addLineIn(tx, shop, line));
      return [...orders].join(",");
    }),
  );
  return answer.split(",").map(Number);
}

/** One line on the supplier's draft; the same part for the same job adds to the line it has. */
async function addLineIn(tx: ShopTx, shop: ShopHandle, line: LineInput): Promise<number> {
  const part = await tx.part.findUnique({
    where: { id: line.partId },
    select: { unit: true, code: true, active: true },
  });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  if (!part.active)
    throw new Refusal(`${part.code} is put away.`, "Take it in use again before you order it.");
  demandRow(line.quantityMilli, part, "quantity");
  const offer = await offerIn(tx, shop, line.partId, line.supplierId);
  const orderId = await draftIn(tx, shop, offer.supplierId);
  const same = await tx.orderLine.findFirst({
    where: { orderId, partId: line.partId, jobId: line.jobId ?? null },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (same)
    await tx.orderLine.update({
      where: { id: same.id },
      data: { quantityMilli: { increment: line.quantityMilli } },
      select: { id: true },
    });
  else
    await tx.orderLine.create({
      data: {
        orderId,
        partId: line.partId,
        code: offer.code,
        quantityMilli: line.quantityMilli,
        unitCostE4: offer.costE4,
        jobId: line.jobId ?? null,
        why: line.why ?? "",
      },
      select: { id: true },
    });
  await tx.purchaseOrder.update({
    where: { id: orderId },
    data: { version: { increment: 1 } },
    select: { id: true },
  });
  return orderId;
}

async function draftIn(tx: ShopTx, shop: ShopHandle, supplierId: number): Promise<number> {
  const found = await tx.purchaseOrder.findFirst({
    where: { supplierId, state: "draft" },
    select: { id: true },
    orderBy: { id: "desc" },
  });
  return found?.id ?? (await newOrderIn(tx, shop, supplierId));
}

/** A new draft with the next number. */
export async function newOrderIn(tx: ShopTx, shop: ShopHandle, supplierId: number): Promise<number> {
  const { number: sequence, written: number } = await nextWritten(tx, shop, "order", 81);
  const made = await tx.purchaseOrder.create({
    data: { number, sequence, supplierId, createdAt: shop.now },
    select: { id: true },
  });
  await audit(tx, shop, "drafted", "order", made.id, { number });
  return made.id;
}

/** Changes what a line of a draft asks for; nothing takes the line off. */
export async function changeLine(
  shop: ShopHandle,
  input: { lineId: number; quantityMilli: number; unitCostE4?: number | null | undefined },
): Promise<void> {
  demandMayCost(shop, input.unitCostE4);
  await shop.write(async (tx) => {
    const line = await tx.orderLine.findUnique({
      where: { id: input.lineId },
      select: {
        orderId: true,
        order: { select: { state: true, number: true } },
        part: { select: { unit: true } },
      },
    });
    if (!line) throw new Refusal("This line is gone.", "Reload the order.", {}, "missing");
    if (line.order.state !== "draft")
      throw new Refusal(
        `Order ${line.order.number} is placed already.`,
        "Cancel what will not come, and put the rest on a new draft.",
        {},
        "conflict",
      );
    if (input.quantityMilli === 0)
      await tx.orderLine.delete({ where: { id: input.lineId }, select: { id: true } });
    else {
      demandQuantity(input.quantityMilli, line.part.unit);
      await tx.orderLine.update({
        where: { id: input.lineId },
        data: {
          quantityMilli: input.quantityMilli,
          ...(input.unitCostE4 === undefined ? {} : { unitCostE4: input.unitCostE4 }),
        },
        select: { id: true },
      });
    }
    await tx.purchaseOrder.update({
      where: { id: line.orderId },
      data: { version: { increment: 1 } },
      select: { id: true },
    });
  });
}
