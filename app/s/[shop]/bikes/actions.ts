"use server";
import { changeBike, createBike } from "@/lib/data/bikes/bikes";
import { removeBike } from "@/lib/data/bikes/remove";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import { BikeSchema, NewBikeSchema } from "@/lib/schemas/bikes";
import { RemoveRecordSchema } from "@/lib/schemas/ids";

export const addBike = action("bike.write", NewBikeSchema, async (shop, input, call) => {
  const odometerKm = keptKm(input.odometerKm, shop.settings.units);
  const id = await createBike(shop, { ...input, odometerKm }, call.key);
  return { to: `/s/${shop.slug}/bikes/${id}`, toast: "Bike added." };
});

export const saveBike = action("bike.write", BikeSchema, async (shop, input) => {
  const odometerKm = keptKm(input.odometerKm, shop.settings.units);
  await changeBike(shop, { ...input, odometerKm });
  return { to: `/s/${shop.slug}/bikes/${input.id}`, toast: "Saved." };
});

export const takeBikeOut = action("bike.write", RemoveRecordSchema, async (shop, input) => {
  await removeBike(shop, input);
  return { to: `/s/${shop.slug}/bikes`, toast: "Removed." };
});
