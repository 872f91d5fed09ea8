import { orderPdf } from "@/lib/documents/order";
import { shopFile } from "@/lib/gate/route";
import { idOf, pdfFile } from "../../../paper";
import { orderOnPaper } from "../../paper";

export const GET = shopFile("stock.write", async (shop, params) => {
  const order = await orderOnPaper(shop, idOf(params));
  return pdfFile(await orderPdf(order), `order-${order.number}`);
});
