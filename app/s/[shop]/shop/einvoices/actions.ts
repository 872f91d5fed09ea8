"use server";
import { saveEinvoiceSeller } from "@/lib/data/einvoice/seller";
import { action } from "@/lib/gate/action";
import { EinvoiceSellerSchema } from "@/lib/schemas/einvoices";

export const saveSeller = action("shop.write", EinvoiceSellerSchema, async (shop, input) => {
  await saveEinvoiceSeller(shop, input);
  return { toast: "Saved." };
});
