"use server";
import { lookAtAnswers } from "@/lib/data/runAnswers/look";
import { action } from "@/lib/gate/action";
import { LookedAtSchema } from "@/lib/schemas/runAnswers";

export const lookedAt = action("followUp.write", LookedAtSchema, async (shop, input) => {
  await lookAtAnswers(shop, input);
  return { toast: "Looked at: it is off Today." };
});
