import { getReminder } from "@/lib/data/chasing/sent";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../paper";

/** A reminder as it was written. */
export const GET = shopFile("invoice.read", async (shop, params, { signal }) => {
  const reminder = await getReminder(shop.read, idOf(params));
  if (!reminder) throw missing();
  const pdf = await inWorker(shop, "reminderPdf", reminder.paper, { signal });
  return pdfFile(pdf, `reminder-${reminder.level}-${reminder.written}`);
});
