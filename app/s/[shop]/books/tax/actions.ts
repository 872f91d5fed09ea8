"use server";
import { saveTaxTerms } from "@/lib/data/shop/taxTerms";
import { action } from "@/lib/gate/action";
import { TaxTermsSchema } from "@/lib/schemas/tax";

export const reportTax = action("shop.write", TaxTermsSchema, async (shop, input) => {
  await saveTaxTerms(shop, input);
  return { toast: "Saved." };
});
