import { getCard } from "@/lib/data/jobs/card";
import { jobCardPdf } from "@/lib/documents/jobCard";
import { dayIn } from "@/lib/domain/schedule/days";
import { shopFile } from "@/lib/gate/route";
import { idOf, missing, onPaper, pdfFile } from "../../../paper";

/** A job's card on paper, as the job stands now. */
export const GET = shopFile("job.read", async (shop, params) => {
  const card = await getCard(shop, idOf(params));
  if (!card) throw missing();
  const minutes = card.steps.reduce((sum, step) => sum + step.minutes, 0);
  const day = dayIn(shop.settings.zone, shop.now);
  return pdfFile(await jobCardPdf({ ...card, minutes, day, shop: onPaper(shop) }), `job-card-${card.number}`);
});
