import { getCard } from "@/lib/data/jobs/card";
import { dayIn } from "@/lib/domain/schedule/days";
import { shopFile } from "@/lib/gate/route";
import { WAIT_WORDS, type WaitReason } from "@/lib/schemas/waits";
import { inWorker } from "@/lib/workers/pool";
import { dayOn, idOf, missing, onPaper, pdfFile } from "../../../paper";

/** A job's card on paper, as the job stands now. */
export const GET = shopFile("job.read", async (shop, params, { signal }) => {
  const card = await getCard(shop, idOf(params));
  if (!card) throw missing();
  const minutes = card.steps.reduce((sum, step) => sum + step.minutes, 0);
  const day = dayIn(shop.settings.zone, shop.now);
  const waits = card.wait
    ? [
        WAIT_WORDS[card.wait.reason as WaitReason],
        card.wait.untilOn && dayOn(shop, card.wait.untilOn),
        card.wait.note,
      ]
    : [];
  const paper = { ...card, minutes, day, waits: waits.filter(Boolean).join(", "), shop: await onPaper(shop) };
  return pdfFile(await inWorker(shop, "jobCardPdf", paper, { signal }), `job-card-${card.number}`);
});
