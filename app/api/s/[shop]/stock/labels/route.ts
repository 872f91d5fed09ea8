import { NextResponse } from "next/server";
import { labelParts } from "@/lib/data/stock/labels";
import { Refusal } from "@/lib/domain/refusal";
import { labelFiles, MOST_LABELS } from "@/lib/domain/stock/labelFiles";
import { publicUrl } from "@/lib/gate/origin";
import { shopFile } from "@/lib/gate/route";
import { LabelsSchema } from "@/lib/schemas/parts";
import { inWorker } from "@/lib/workers/pool";
import { onPaper, pdfFile } from "../../paper";

/**
 * Labels of parts: `?ids=`, `?family=` or `?bin=`, on a `paper` of roll or sheet, in so many `copies`, from label `start`.
 * What does not go into one file is answered with the page that lists the files; `?file=` is one of them.
 */
export const GET = shopFile("stock.read", async (shop, _params, request) => {
  const query = request.nextUrl.searchParams;
  const asked = LabelsSchema.parse(Object.fromEntries(query));
  const parts = await labelParts(shop, asked);
  if (parts.length === 0)
    throw new Refusal("There is nothing to print.", "Choose a part, a family or a bin.");
  const count = parts.length * asked.copies;
  if (count > MOST_LABELS)
    throw new Refusal(
      `That is more than ${MOST_LABELS} labels.`,
      "Print fewer copies, or one bin at a time.",
    );
  const files = labelFiles(count, asked.start);
  if (files.length > 1 && asked.file === null)
    return NextResponse.redirect(new URL(`/s/${shop.slug}/stock/labels?${query}`, publicUrl()), 303);
  const file = files[(asked.file ?? 1) - 1];
  if (!file) throw new Refusal("There is no such file.", "Choose the labels again.", {}, "missing");
  const labels = Array.from(
    { length: file.to - file.from },
    (_, at) => parts[Math.floor((file.from + at) / asked.copies)],
  ).filter((part) => part !== undefined);
  const sheet = {
    labels,
    paper: asked.paper,
    start: file.start,
    shop: await onPaper(shop),
    day: shop.now.toISOString().slice(0, 10),
  };
  const pdf = await inWorker(shop, "labelsPdf", sheet, { signal: request.signal });
  return pdfFile(pdf, files.length > 1 ? `labels-${asked.file ?? 1}-of-${files.length}` : "labels");
});
