"use server";
import { countPart, splitPart } from "@/lib/data/stock/counts";
import { recordMove } from "@/lib/data/stock/moves";
import { releaseReservation } from "@/lib/data/stock/reservations";
import { changePart, createPart, putOnOrder } from "@/lib/data/stock/save";
import { action } from "@/lib/gate/action";
import {
  CountSchema,
  NewPartSchema,
  OrderSchema,
  PartSchema,
  ReceiveSchema,
  ReleaseSchema,
  ReturnSchema,
  SplitSchema,
  TakeOutSchema,
} from "@/lib/schemas/stock";

const partPage = (slug: string, id: number) => `/s/${slug}/stock/${id}`;

export const addPart = action("stock.write", NewPartSchema, async (shop, input, call) => {
  const id = await createPart(shop, input, call.key);
  return { to: partPage(shop.slug, id), toast: `${input.code} added.` };
});

export const savePart = action("stock.write", PartSchema, async (shop, input) => {
  await changePart(shop, input);
  return { to: partPage(shop.slug, input.id), toast: `${input.code} saved.` };
});

export const receivePart = action("stock.write", ReceiveSchema, async (shop, input, call) => {
  const { filled } = await recordMove(shop, {
    partId: input.partId,
    kind: "receipt",
    quantityMilli: input.quantity,
    unitCostE4: input.unitCost,
    why: input.why,
    key: call.key,
  });
  const jobs = [...new Set(filled.map((one) => one.jobNumber))];
  return {
    toast: jobs.length ? `Received. Job ${jobs.join(", ")} waited for it and has it now.` : "Received.",
  };
});

export const orderPart = action("stock.write", OrderSchema, async (shop, input, call) => {
  await putOnOrder(shop, {
    partId: input.partId,
    quantityMilli: input.quantity,
    why: input.why,
    key: call.key,
  });
  return { toast: "Noted as on order." };
});

export const takeOutPart = action("stock.write", TakeOutSchema, async (shop, input, call) => {
  await recordMove(shop, {
    partId: input.partId,
    kind: input.kind,
    quantityMilli: input.quantity,
    why: input.why,
    key: call.key,
  });
  return { toast: input.kind === "scrap" ? "Scrapped." : "Sent back." };
});

export const returnPart = action("stock.use", ReturnSchema, async (shop, input, call) => {
  await recordMove(shop, {
    partId: input.partId,
    kind: "returnToStock",
    quantityMilli: input.quantity,
    jobId: input.jobId,
    why: input.why,
    key: call.key,
  });
  return { toast: "Back in stock." };
});

export const takeCount = action("stock.write", CountSchema, async (shop, input, call) => {
  const variance = await countPart(shop, {
    partId: input.partId,
    countedMilli: input.counted,
    seenMilli: input.seenMilli,
    why: input.why,
    key: call.key,
  });
  return {
    to: partPage(shop.slug, input.partId),
    toast: variance === 0 ? "The bin agrees." : "Count taken into the ledger.",
  };
});

export const openAssortment = action("stock.write", SplitSchema, async (shop, input, call) => {
  await splitPart(shop, {
    partId: input.partId,
    quantityMilli: input.quantity,
    into: input.into,
    key: call.key,
  });
  return { to: partPage(shop.slug, input.partId), toast: "Opened into its parts." };
});

export const releasePromise = action("stock.write", ReleaseSchema, async (shop, input) => {
  await releaseReservation(shop, input.reservationId);
  return { toast: "Released. It is free, or went to the next job that is short." };
});
