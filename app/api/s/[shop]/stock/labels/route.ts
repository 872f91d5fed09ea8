import { labelParts } from "@/lib/data/stock/labels";
import { labelsPdf } from "@/lib/documents/label";
import { Refusal } from "@/lib/domain/refusal";
import { shopFile } from "@/lib/gate/route";
import { LabelsSchema } from "@/lib/schemas/parts";
import { onPaper, pdfFile } from "../../paper";

/** Labels of parts: `?ids=`, `?family=` or `?bin=`, on a `paper` of roll or sheet, in so many `copies`, from label `start`. */
export const GET = shopFile("stock.read", async (shop, _params, request) => {
  const asked = LabelsSchema.parse(Object.fromEntries(request.nextUrl.searchParams));
  const parts = await labelParts(shop, asked);
  if (parts.length === 0)
    throw new Refusal("There is nothing to print.", "Choose a part, a family or a bin.");
  if (parts.length * asked.copies > 2000)
    throw new Refusal("That is more than 2000 labels.", "Print fewer copies, or one bin at a time.");
  const labels = parts.flatMap((part) => Array.from({ length: asked.copies }, () => part));
  const day = shop.now.toISOString().slice(0, 10);
  return pdfFile(
    await labelsPdf({ labels, paper: asked.paper, start: asked.start, shop: onPaper(shop), day }),
    "labels",
  );
});
