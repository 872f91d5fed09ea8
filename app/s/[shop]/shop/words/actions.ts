"use server";
import { textsOfPackage, textsOfShop } from "@/lib/data/packages/ownTexts";
import { phrasesOf, savePhrases } from "@/lib/data/shop/phrases";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import { SaveWordsSchema } from "@/lib/schemas/phrases";

export const saveWords = action("shop.write", SaveWordsSchema, async (shop, { of, language, typed }) => {
  const found = of === "shop" ? await textsOfShop(shop) : await textsOfPackage(shop, of);
  if (!found) throw new Refusal("There is no such package.", "Choose one from the list.", {}, "missing");
  const saved = await savePhrases(shop, language, await phrasesOf(shop, language, found.texts), typed);
  return {
    toast: saved === 0 ? "Nothing was changed." : `Saved: ${saved} ${saved === 1 ? "text" : "texts"}.`,
  };
});
