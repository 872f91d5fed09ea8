import { sheetForPaper } from "@/lib/data/papers/sheet";
import { settingSheetPdf } from "@/lib/documents/settingSheet";
import { shopFile } from "@/lib/gate/route";
import { dayOn, idOf, missing, onPaper, pdfFile } from "../../../paper";

/** A setting sheet, as found, target or as left. */
export const GET = shopFile("bike.read", async (shop, params) => {
  const sheet = await sheetForPaper(shop, idOf(params));
  if (!sheet) throw missing();
  const pdf = await settingSheetPdf({ ...sheet, dayText: dayOn(shop, sheet.day), shop: onPaper(shop) });
  return pdfFile(pdf, `setting-sheet-${sheet.kind}-${sheet.day}`);
});
