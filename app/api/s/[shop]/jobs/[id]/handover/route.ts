import { instantText } from "@/app/_ui/format";
import { arrivalOfJob } from "@/lib/data/arrivals/get";
import { arrivalOnPaper } from "@/lib/data/papers/arrival";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { numberText } from "@/lib/documents/format";
import type { OpenShop } from "@/lib/gate/open";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { dayOn, idOf, missing, onPaper, pdfFile } from "../../../paper";

/** What goes home with the bike. */
export const GET = shopFile("job.read", async (shop, params, { signal }) => {
  const paper = await handoverForPaper(shop, idOf(params));
  if (!paper) throw missing();
  const came = await arrivalOfJob(shop, idOf(params));
  const { locale, zone } = shop.settings;
  const handover = {
    ...paper,
    arrival: came && arrivalOnPaper(came, (at) => instantText(at.toISOString(), locale, zone)),
    dayText: paper.finished ? dayOn(shop, paper.day) : "",
    next: nextText(shop, paper.followUp),
    shop: onPaper(shop),
  };
  const pdf = await inWorker(shop, "handoverPdf", handover, { signal });
  return pdfFile(pdf, `handover-${paper.job.number}`);
});

function nextText(shop: OpenShop, followUp: { dueOn: string; dueKm: number | null } | null): string {
  if (!followUp) return "";
  const km = followUp.dueKm === null ? [] : [`${numberText(followUp.dueKm, shop.settings.locale)} km`];
  return [dayOn(shop, followUp.dueOn), ...km].join(" / ");
}
