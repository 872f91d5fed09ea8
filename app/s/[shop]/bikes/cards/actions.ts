"use server";
import { judgeLesson } from "@/lib/data/bikes/lessons";
import { changeModelCard, createModelCard } from "@/lib/data/bikes/modelCards";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import { JudgeLessonSchema } from "@/lib/schemas/lessons";
import { ModelCardSchema } from "@/lib/schemas/modelCards";

export const saveModelCard = action("card.write", ModelCardSchema, async (shop, typed, call) => {
  const input = { ...typed, serviceKm: keptKm(typed.serviceKm, shop.settings.units) };
  const id = input.id
    ? await changeModelCard(shop, input.id, input)
    : await createModelCard(shop, input, call.key);
  return { to: `/s/${shop.slug}/bikes/cards/${id}`, toast: "Model card saved." };
});

export const judge = action("card.write", JudgeLessonSchema, async (shop, input) => {
  const card = await judgeLesson(shop, input);
  const said = { release: "Released to the card.", takeOut: "Taken out.", putBack: "Put back." };
  return { to: `/s/${shop.slug}/bikes/cards/${card}`, toast: said[input.act] };
});
