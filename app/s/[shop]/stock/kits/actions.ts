"use server";
import { retireKit, saveKit } from "@/lib/data/kits/write";
import { action } from "@/lib/gate/action";
import { KitSchema, RetireKitSchema } from "@/lib/schemas/kits";

export const keepKit = action("stock.write", KitSchema, async (shop, input, { key }) => {
  const id = await saveKit(shop, { ...input, key });
  return { to: `/s/${shop.slug}/stock/kits/${id}`, toast: `${input.code} is saved.` };
});

export const retireIt = action("stock.write", RetireKitSchema, async (shop, input) => {
  await retireKit(shop, input);
  return {
    toast: input.active === "yes" ? "In use again." : "Put away. What was sold or quoted of it stays.",
  };
});
