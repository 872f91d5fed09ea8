import { getDay } from "@/lib/data/endOfDay/get";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** The sheet of a day's end, as it was closed. */
export const GET = shopFile("day.close", async (shop, params, { signal }) => {
  const day = await getDay(shop, idOf(params));
  if (!day) throw missing();
  return pdfFile(await inWorker(shop, "endOfDayPdf", day.doc, { signal }), `end-of-day-${day.doc.day}`);
});
