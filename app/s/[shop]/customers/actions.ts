"use server";
import { changeCustomer, createCustomer } from "@/lib/data/customers/customers";
import { removeCustomer } from "@/lib/data/customers/remove";
import { eraseCustomer } from "@/lib/data/erasing/erase";
import { action } from "@/lib/gate/action";
import { photoStore } from "@/lib/outside/photoStore";
import { CustomerSchema } from "@/lib/schemas/customers";
import { EraseCustomerSchema } from "@/lib/schemas/erasing";
import { RemoveRecordSchema } from "@/lib/schemas/ids";

export const saveCustomer = action("customer.write", CustomerSchema, async (shop, input, call) => {
  const id = input.id
    ? await changeCustomer(shop, input.id, input)
    : await createCustomer(shop, input, call.key);
  return { to: `/s/${shop.slug}/customers/${id}`, toast: input.id ? "Saved." : `${input.name} added.` };
});

export const takeCustomerOut = action("customer.write", RemoveRecordSchema, async (shop, input) => {
  await removeCustomer(shop, input);
  return { to: `/s/${shop.slug}/customers`, toast: "Removed." };
});

export const eraseCustomerData = action("customer.erase", EraseCustomerSchema, async (shop, input) => {
  await eraseCustomer(shop, input, photoStore(shop));
  return { to: `/s/${shop.slug}/customers/${input.id}`, toast: "Erased." };
});
