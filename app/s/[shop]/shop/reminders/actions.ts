"use server";
import { saveReminderTerms } from "@/lib/data/chasing/terms";
import { action } from "@/lib/gate/action";
import { ReminderTermsSchema, typedTerms } from "@/lib/schemas/chasing";

export const saveTerms = action("shop.write", ReminderTermsSchema, async (shop, input) => {
  await saveReminderTerms(shop, { ...typedTerms(input, shop.settings), version: input.version });
  return { toast: "Saved." };
});
