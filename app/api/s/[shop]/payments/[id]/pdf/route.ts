import { moneyFile } from "@/lib/data/payments/paperMail";
import { paymentPaper } from "@/lib/data/payments/papers";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, pdfFile } from "../../../paper";

/** A receipt of money that came in, or a note of what went back. */
export const GET = shopFile("invoice.read", async (shop, params, { signal }) => {
  const { printed } = await paymentPaper(shop.read, idOf(params));
  return pdfFile(await inWorker(shop, "moneyPdf", printed, { signal }), moneyFile(printed));
});
