"use server";
import { cancelOrder, cancelRest, postponeLine } from "@/lib/data/orders/cancel";
import { addToDrafts, changeLine } from "@/lib/data/orders/draft";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { findScanned } from "@/lib/data/stock/find";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import {
  AddOrderLineSchema,
  CancelLineSchema,
  CancelOrderSchema,
  ChangeLineSchema,
  DeliverySchema,
  DraftLineSchema,
  PlaceSchema,
  PostponeSchema,
  SuggestedSchema,
} from "@/lib/schemas/orders";

const page = (slug: string, id: number) => `/s/${slug}/stock/orders/${id}`;

export const draftSuggested = action("stock.write", SuggestedSchema, async (shop, input, call) => {
  const lines = input.lines.map((line) => ({
    ...line,
    supplierId: input.supplierId,
    why: line.jobId ? "short for a job" : "under its point",
  }));
  const orders = await addToDrafts(shop, lines, call.key);
  return {
    to: page(shop.slug, orders[0] as number),
    toast: `${lines.length} on the draft. Nothing is ordered until you place it.`,
  };
});

export const draftPart = action("stock.write", DraftLineSchema, async (shop, input, call) => {
  const [id] = await addToDrafts(shop, [{ ...input, quantityMilli: input.quantity }], call.key);
  return { to: page(shop.slug, id as number), toast: "On the supplier's draft." };
});

export const addOrderLine = action("stock.write", AddOrderLineSchema, async (shop, input, call) => {
  const found = await findScanned(shop, input.code);
  const [part] = found;
  if (!part || found.length > 1)
    throw new Refusal(
      part
        ? `${input.code} could be ${found.map((each) => each.code).join(", ")}.`
        : `No part is known as ${input.code}.`,
      "Enter the part's own code.",
      { code: part ? "More than one part." : "No such part." },
    );
  await addToDrafts(
    shop,
    [{ partId: part.id, supplierId: input.supplierId, quantityMilli: input.quantity }],
    call.key,
  );
  return { toast: `${part.code} added.` };
});

export const changeOrderLine = action("stock.write", ChangeLineSchema, async (shop, input) => {
  await changeLine(shop, {
    lineId: input.lineId,
    quantityMilli: input.quantity,
    unitCostE4: shop.can("margin.read") ? input.cost : undefined,
  });
  return { toast: input.quantity === 0 ? "Taken off." : "Changed." };
});

export const placeDraft = action("stock.write", PlaceSchema, async (shop, input, call) => {
  const number = await placeOrder(shop, { ...input, key: call.key });
  return {
    to: page(shop.slug, input.orderId),
    toast: input.mail ? `Order ${number} is placed, and its mail written.` : `Order ${number} is placed.`,
  };
});

export const receiveDelivery = action("stock.write", DeliverySchema, async (shop, input, call) => {
  const { differences, jobs, whole } = await receiveOrder(shop, { ...input, key: call.key });
  const money = (e4: number | null) =>
    e4 === null ? "no price" : unitPriceText(e4, shop.settings.currency, shop.settings.locale);
  const told = [
    whole ? "All of it is in." : "Received; the rest stays open.",
    jobs.length > 0 ? `Job ${jobs.join(", ")} waited for it and has it now.` : "",
    ...(shop.can("margin.read")
      ? differences.map(
          (one) =>
            `${one.code} came at ${money(one.cameE4)}, ordered at ${money(one.orderedE4)}: average ${money(one.averageBeforeE4)} is now ${money(one.averageE4)}.`,
        )
      : []),
  ];
  return { to: page(shop.slug, input.orderId), toast: told.filter(Boolean).join(" ") };
});

export const cancelLine = action("stock.write", CancelLineSchema, async (shop, input, call) => {
  await cancelRest(shop, { ...input, key: call.key });
  return { toast: "The rest is cancelled and on order no more." };
});

export const postpone = action("stock.write", PostponeSchema, async (shop, input) => {
  await postponeLine(shop, input);
  return { toast: "Stays open for that day. Bookings wait for it." };
});

export const cancelWhole = action("stock.write", CancelOrderSchema, async (shop, input) => {
  const how = await cancelOrder(shop, input);
  return how === "gone"
    ? { to: `/s/${shop.slug}/stock/orders`, toast: "The draft is gone." }
    : { to: page(shop.slug, input.orderId), toast: "What was open is cancelled." };
});
