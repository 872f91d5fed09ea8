"use server";
import { z } from "zod";
import { askForExport } from "@/lib/data/people/exports";
import { action } from "@/lib/gate/action";

export const exportAll = action("shop.export", z.object({}), async (shop) => {
  await askForExport(shop, shop.shopId);
  return { toast: "It is being made." };
});
