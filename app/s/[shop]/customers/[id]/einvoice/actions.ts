"use server";
import { saveEinvoiceBuyer } from "@/lib/data/einvoice/buyer";
import { action } from "@/lib/gate/action";
import { EinvoiceBuyerSchema } from "@/lib/schemas/einvoices";

export const saveBuyer = action("customer.write", EinvoiceBuyerSchema, async (shop, input) => {
  await saveEinvoiceBuyer(shop, input);
  return { to: `/s/${shop.slug}/customers/${input.customerId}`, toast: "Saved." };
});
