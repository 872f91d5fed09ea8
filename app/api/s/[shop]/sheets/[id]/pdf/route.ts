import { sheetForPaper } from "@/lib/data/papers/sheet";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { dayOn, idOf, missing, onPaper, pdfFile } from "../../../paper";

/** A setting sheet, as found, target or as left. */
export const GET = shopFile("bike.read", async (shop, params, { signal }) => {
  const sheet = await sheetForPaper(shop, idOf(params));
  if (!sheet) throw missing();
  const paper = { ...sheet, dayText: dayOn(shop, sheet.day), shop: await onPaper(shop) };
  const pdf = await inWorker(shop, "settingSheetPdf", paper, { signal });
  return pdfFile(pdf, `setting-sheet-${sheet.kind}-${sheet.day}`);
});
