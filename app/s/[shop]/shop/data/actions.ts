"use server";
import { z } from "zod";
import { askToEraseShop, takeBackErasure } from "@/lib/data/people/eraseShop";
import { askForExport } from "@/lib/data/people/exports";
import { action } from "@/lib/gate/action";
import { EraseShopSchema } from "@/lib/schemas/erasing";

export const exportAll = action("shop.export", z.object({}), async (shop) => {
  await askForExport(shop, shop.shopId);
  return { toast: "It is being made." };
});

export const eraseThisShop = action("shop.erase", EraseShopSchema, async (shop, { name }) => {
  await askToEraseShop(shop, name);
  return { toast: "It will be erased. Until then it can be taken back." };
});

export const keepThisShop = action("shop.erase", z.object({}), async (shop) => {
  await takeBackErasure(shop, shop.shopId);
  return { toast: "The shop stays." };
});
