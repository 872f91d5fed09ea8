import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, pdfFile } from "../../../paper";
import { orderOnPaper } from "../../paper";

export const GET = shopFile("stock.write", async (shop, params, { signal }) => {
  const order = await orderOnPaper(shop, idOf(params));
  return pdfFile(await inWorker(shop, "orderPdf", order, { signal }), `order-${order.number}`);
});
