import { getOrder } from "@/lib/data/orders/list";
import { shopOnOrder } from "@/lib/data/orders/printed";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import type { OpenShop } from "@/lib/gate/open";
import { missing } from "../paper";

/** An order with what its paper says of the shop. */
export async function orderOnPaper(shop: OpenShop, id: number): Promise<OrderOnPaper> {
  const order = await getOrder(shop, id, shop.can("margin.read"));
  if (!order) throw missing();
  return { ...order, day: order.today, shop: await shopOnOrder(shop.read) };
}
