"use server";
import { changeCustomer, createCustomer } from "@/lib/data/customers/customers";
import { action } from "@/lib/gate/action";
import { CustomerSchema } from "@/lib/schemas/customers";

export const saveCustomer = action("customer.write", CustomerSchema, async (shop, input, call) => {
  const id = input.id
    ? await changeCustomer(shop, input.id, input)
    : await createCustomer(shop, input, call.key);
  return { to: `/s/${shop.slug}/customers/${id}`, toast: input.id ? "Saved." : `${input.name} added.` };
});
