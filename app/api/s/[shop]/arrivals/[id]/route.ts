import { instantText } from "@/app/_ui/format";
import { getArrival } from "@/lib/data/arrivals/get";
import { arrivalOnPaper } from "@/lib/data/papers/arrival";
import { dayIn } from "@/lib/domain/schedule/days";
import { shopFile } from "@/lib/gate/route";
import { customerLocale } from "@/lib/words/language";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, onPaper, pdfFile } from "../../paper";

/** How a bike came, as whoever brought it signed it. */
export const GET = shopFile("bike.read", async (shop, params, { signal }) => {
  const view = await getArrival(shop, idOf(params));
  if (!view) throw missing();
  const { zone, locale: own } = shop.settings;
  const locale = customerLocale(own, view.customer.language);
  const paper = {
    ...arrivalOnPaper(view, (at) => instantText(at.toISOString(), locale, zone)),
    id: view.id,
    job: view.job?.number ?? "",
    customer: view.customer.name,
    bike: view.bike.name,
    plate: view.bike.plate,
    day: dayIn(zone, view.at),
    takenBy: view.takenBy,
    replaced: view.replacedBy !== null,
    shop: { ...(await onPaper(shop)), locale },
  };
  return pdfFile(await inWorker(shop, "arrivalPdf", paper, { signal }), `arrival-${view.id}`);
});
