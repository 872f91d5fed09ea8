import { handoverPaper } from "@/app/_documents/handoverPaper";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** What goes home with the bike. */
export const GET = shopFile("job.read", async (shop, params, { signal }) => {
  const paper = await handoverPaper(shop, idOf(params));
  if (!paper) throw missing();
  return pdfFile(await inWorker(shop, "handoverPdf", paper, { signal }), `handover-${paper.job.number}`);
});
