"use server";
import { resetLetter, saveLetter, switchLetter } from "@/lib/data/mail/letterTexts";
import { action } from "@/lib/gate/action";
import { ResetLetterSchema, SaveLetterSchema, SwitchLetterSchema } from "@/lib/schemas/letters";

export const saveIt = action("shop.write", SaveLetterSchema, async (shop, input) => {
  await saveLetter(shop, input);
  return { toast: "Saved. The next letter is written so." };
});

export const putBack = action("shop.write", ResetLetterSchema, async (shop, input) => {
  await resetLetter(shop, input);
  return { toast: "Put back to ours. Yours are in the audit trail." };
});

export const switchIt = action("shop.write", SwitchLetterSchema, async (shop, input) => {
  await switchLetter(shop, input);
  return { toast: input.on ? "The letter is on." : "The letter is off." };
});
