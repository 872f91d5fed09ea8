"use server";
import { removeAccount, saveAccount } from "@/lib/data/shop/account";
import { action } from "@/lib/gate/action";
import { AccountSchema, NoAccountSchema } from "@/lib/schemas/account";

export const keepAccount = action("shop.write", AccountSchema, async (shop, input) => {
  await saveAccount(shop, input);
  return { to: `/s/${shop.slug}/shop/paying`, toast: "Saved. What is issued from now on prints it." };
});

export const takeAccountOff = action("shop.write", NoAccountSchema, async (shop, input) => {
  await removeAccount(shop, input);
  return { toast: "Removed. Papers say only your note on paying." };
});
