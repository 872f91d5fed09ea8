import { getInvoice } from "@/lib/data/invoices/get";
import { Refusal } from "@/lib/domain/refusal";
import { shopFile } from "@/lib/gate/route";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** An invoice or credit note as it was issued; a draft is marked as one. */
export const GET = shopFile("invoice.read", async (shop, params, { signal }) => {
  const invoice = await getInvoice(shop, idOf(params));
  if (!invoice) throw missing();
  if (!invoice.doc)
    throw new Refusal(invoice.refused?.message ?? "This draft cannot be printed.", invoice.refused?.remedy);
  const pdf = await inWorker(shop, "invoicePdf", invoice.doc, { signal });
  return pdfFile(pdf, `${KIND_FILES[invoice.kind]}-${invoice.written || "draft"}`);
});
