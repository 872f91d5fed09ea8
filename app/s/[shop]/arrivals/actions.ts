"use server";
import { recordArrival, signArrival } from "@/lib/data/arrivals/record";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import { ArrivalSchema, SignArrivalSchema } from "@/lib/schemas/arrivals";

export const record = action("intake.write", ArrivalSchema, async (shop, input, call) => {
  const odometerKm = keptKm(input.odometerKm, shop.settings.units);
  const id = await recordArrival(shop, { ...input, odometerKm, key: call.key });
  return { to: `/s/${shop.slug}/arrivals/${id}`, toast: "The bike is here." };
});

export const sign = action("intake.write", SignArrivalSchema, async (shop, input, call) => {
  await signArrival(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/arrivals/${input.id}`, toast: "Signed." };
});
