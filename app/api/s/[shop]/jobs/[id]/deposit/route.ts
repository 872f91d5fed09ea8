import { moneyFile } from "@/lib/data/payments/paperMail";
import { depositRequest } from "@/lib/data/payments/papers";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, pdfFile } from "../../../paper";

/** What asks for the deposit of a job. */
export const GET = shopFile("invoice.read", async (shop, params, { signal }) => {
  const { printed } = await depositRequest(shop.read, idOf(params), shop.now);
  return pdfFile(await inWorker(shop, "moneyPdf", printed, { signal }), moneyFile(printed));
});
