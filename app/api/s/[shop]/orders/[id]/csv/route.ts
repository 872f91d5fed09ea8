import { orderCsv } from "@/lib/documents/order";
import { file, shopFile } from "@/lib/gate/route";
import { idOf } from "../../../paper";
import { orderOnPaper } from "../../paper";

export const GET = shopFile("stock.write", async (shop, params) => {
  const order = await orderOnPaper(shop, idOf(params));
  return file(orderCsv(order), "text/csv; charset=utf-8", `order-${order.number}.csv`);
});
