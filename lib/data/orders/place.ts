import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayWords } from "@/lib/domain/schedule/days";
import { dayAfter, dayOf } from "@/lib/domain/schedule/localTime";
import { quantityText } from "@/lib/schemas/quantity";
import { zoneIn } from "../common/zone";
import { encloseIn } from "../mail/attachments";
import { demandQuantity } from "../stock/quantity";
import { newOrderIn } from "./draft";
import { offerIn } from "./offers";
import { printedOrderIn } from "./printed";

export interface PlaceInput {
  orderId: number;
  version: number;
  /** When all of it is due; else each line by its supplier's days. */
  dueOn?: string | undefined;
  note?: string | undefined;
  /** Writes a mail to the supplier. */
  mail?: boolean | undefined;
  key?: string | undefined;
}

/** Places a draft: from now on its lines are on order. */
export async function placeOrder(shop: ShopHandle, input: PlaceInput): Promise<string> {
  return shop.write((tx) =>
    once(tx, shop, "placed an order", input, async () => {
      const order = await tx.purchaseOrder.findUnique({
        where: { id: input.orderId },
        select: {
          number: true,
          state: true,
          version: true,
          supplier: { select: { id: true, name: true, email: true, customerNumber: true } },
          lines: {
            select: {
              id: true,
              partId: true,
              quantityMilli: true,
              code: true,
              part: { select: { code: true, name: true, unit: true } },
            },
            orderBy: { id: "asc" },
          },
        },
      });
      if (!order) throw new Refusal("There is no such order.", "Choose one from the list.", {}, "missing");
      if (order.state !== "draft")
        throw new Refusal(
          `Order ${order.number} is placed already.`,
          "Reload it to see how it stands.",
          {},
          "conflict",
        );
      if (order.lines.length === 0)
        throw new Refusal("The order has no lines.", "Put at least one part on it.");
      if (input.mail && !order.supplier.email)
        throw new Refusal(
          `${order.supplier.name} has no e-mail address.`,
          "Add one to the supplier, or place the order without a letter.",
        );
      const settings = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { zone: true, name: true, locale: true },
      });
      const today = dayOf(shop.now.getTime(), settings.zone);
      if (input.dueOn && input.dueOn < today)
        throw new Refusal("It cannot be due before today.", "Enter the day it is due.", {
          dueOn: "Today or later.",
        });
      await demandOne(
        tx.purchaseOrder.updateMany({
          where: { id: input.orderId, state: "draft", version: input.version },
          data: {
            state: "ordered",
            orderedOn: today,
            ...(input.note === undefined ? {} : { note: input.note }),
            ...(input.mail ? { mailedAt: shop.now } : {}),
            version: { increment: 1 },
          },
        }),
        () =>
          new Refusal(
            `Order ${order.number} changed while you looked at it.`,
            "Look at its lines again, then place it.",
            {},
            "conflict",
          ),
      );
      for (const line of order.lines) {
        const { leadDays } = await offerIn(tx, shop, line.partId, order.supplier.id);
        const dueOn = input.dueOn || (leadDays === null ? null : dayAfter(today, leadDays));
        await tx.orderLine.update({ where: { id: line.id }, data: { dueOn }, select: { id: true } });
        await moreOnOrderIn(tx, line.partId, line.quantityMilli);
      }
      if (input.mail) {
        const mail = await tx.mail.create({
          data: {
            to: order.supplier.email,
            subject: `${settings.name}: order ${order.number}`,
            text: mailText(order, settings, input),
            createdAt: shop.now,
          },
          select: { id: true },
        });
        const reference = { noun: "order", nounId: input.orderId } as const;
        const printed = await printedOrderIn(tx, input.orderId, today);
        for (const form of ["pdf", "csv"] as const)
          await encloseIn(tx, mail.id, {
            ...reference,
            form,
            name: `order-${order.number}.${form}`,
            printed,
          });
        await audit(tx, shop, "wrote", "mail", mail.id, { order: order.number });
      }
      await audit(tx, shop, "placed", "order", input.orderId, {
        number: order.number,
        lines: order.lines.length,
      });
      return order.number;
    }),
  );
}

interface Mailed {
  number: string;
  supplier: { name: string; customerNumber: string };
  lines: readonly {
    quantityMilli: number;
    code: string;
    part: { code: string; name: string; unit: string };
  }[];
}

function mailText(order: Mailed, shop: { name: string; locale: string }, input: PlaceInput): string {
  const lines = order.lines.map(
    (line) =>
      `${quantityText(line.quantityMilli, line.part.unit)} x ${line.code || line.part.code}  ${line.part.name}`,
  );
  return [
    `Order ${order.number}${order.supplier.customerNumber ? `, our number with you ${order.supplier.customerNumber}` : ""}`,
    lines.join("\n"),
    input.dueOn ? `Needed by ${dayWords(input.dueOn, shop.locale)}.` : "",
    input.note ?? "",
    `Please confirm the day of delivery.\n${shop.name}`,
  ]
    .filter(Boolean)
    .join("\n\n");
}

/** Changes what is on order of a part. */
export async function moreOnOrderIn(tx: ShopTx, partId: number, byMilli: number): Promise<void> {
  await tx.part.update({
    where: { id: partId },
    data: { onOrderMilli: { increment: byMilli } },
    select: { id: true },
  });
}

/** Orders a part here and now, as by telephone: a line on today's order with its supplier, placed. Returns the order's id. */
export async function putOnOrderIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: { partId: number; quantityMilli: number; why?: string | undefined; jobId?: number | undefined },
): Promise<number> {
  const part = await tx.part.findUnique({ where: { id: input.partId }, select: { unit: true } });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  demandQuantity(input.quantityMilli, part.unit);
  const offer = await offerIn(tx, shop, input.partId);
  const today = dayOf(shop.now.getTime(), await zoneIn(tx));
  const open = await tx.purchaseOrder.findFirst({
    where: { supplierId: offer.supplierId, state: "ordered", orderedOn: today },
    select: { id: true },
    orderBy: { id: "desc" },
  });
  const orderId = open?.id ?? (await newOrderIn(tx, shop, offer.supplierId));
  await tx.orderLine.create({
    data: {
      orderId,
      partId: input.partId,
      code: offer.code,
      quantityMilli: input.quantityMilli,
      unitCostE4: offer.costE4,
      dueOn: offer.leadDays === null ? null : dayAfter(today, offer.leadDays),
      jobId: input.jobId ?? null,
      why: input.why ?? "",
    },
    select: { id: true },
  });
  await tx.purchaseOrder.update({
    where: { id: orderId },
    data: { state: "ordered", orderedOn: today, version: { increment: 1 } },
    select: { id: true },
  });
  await moreOnOrderIn(tx, input.partId, input.quantityMilli);
  await audit(tx, shop, "ordered", "part", input.partId, {
    quantityMilli: input.quantityMilli,
    why: input.why ?? "",
  });
  return orderId;
}
