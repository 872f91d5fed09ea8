"use server";
import { changeModelCard, createModelCard } from "@/lib/data/bikes/modelCards";
import { action } from "@/lib/gate/action";
import { ModelCardSchema } from "@/lib/schemas/modelCards";
import { keptKm } from "../distance";

export const saveModelCard = action("card.write", ModelCardSchema, async (shop, typed, call) => {
  const input = { ...typed, serviceKm: keptKm(typed.serviceKm, shop.settings.units) };
  const id = input.id
    ? await changeModelCard(shop, input.id, input)
    : await createModelCard(shop, input, call.key);
  return { to: `/s/${shop.slug}/bikes/cards/${id}`, toast: "Model card saved." };
});
