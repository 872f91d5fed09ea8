"use server";
import { offerPart } from "@/lib/data/orders/offers";
import { saveSupplier } from "@/lib/data/orders/suppliers";
import { previewPriceList, takePriceList } from "@/lib/data/parts/priceList";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { PartSupplierSchema, PriceListSchema, SupplierSchema } from "@/lib/schemas/orders";

export const keepSupplier = action("stock.write", SupplierSchema, async (shop, input, call) => {
  const id = await saveSupplier(shop, input, call.key);
  return { to: `/s/${shop.slug}/stock/suppliers/${id}`, toast: `${input.name} saved.` };
});

export const keepOffer = action("stock.write", PartSupplierSchema, async (shop, input) => {
  await offerPart(shop, { ...input, cost: shop.can("margin.read") ? input.cost : undefined });
  return { toast: `${input.supplier} sells it.` };
});

/** A price list is all costs: who may not see them may not bring one in. */
function demandCosts(shop: OpenShop): void {
  if (!shop.can("margin.read"))
    throw new Refusal("Your role may not see costs.", "Ask an owner of the shop.", {}, "forbidden");
}

export const checkPriceList = action(
  "stock.write",
  PriceListSchema,
  async (shop, input) => {
    demandCosts(shop);
    return { shown: { view: JSON.stringify(await previewPriceList(shop, input)) } };
  },
  "file",
);

export const bringPriceList = action(
  "stock.write",
  PriceListSchema,
  async (shop, input, call) => {
    demandCosts(shop);
    const view = await takePriceList(shop, input, call.key);
    return {
      shown: { done: JSON.stringify(view) },
      toast: view.changes.length === 0 ? "No cost was new." : `${view.changes.length} costs taken over.`,
    };
  },
  "file",
);
