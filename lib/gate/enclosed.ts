import type { OpenShop } from "@/lib/gate/open";

/** Whoever may read a document may open what a mail carried of it; an order's prices are what parts cost. */
export function mayOpenEnclosed(shop: OpenShop, noun: string): boolean {
  if (noun === "order") return shop.can("margin.read");
  return shop.can(["invoice", "statement", "reminder"].includes(noun) ? "invoice.read" : "quote.read");
}
