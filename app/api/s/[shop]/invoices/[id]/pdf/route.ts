import { getInvoice } from "@/lib/data/invoices/get";
import { Refusal } from "@/lib/domain/refusal";
import { shopFile } from "@/lib/gate/route";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** An invoice, credit note or receipt as it was issued; a draft is marked as one. `?on=sheet` prints a receipt on an office sheet, not a roll. */
export const GET = shopFile("invoice.read", async (shop, params, request) => {
  const invoice = await getInvoice(shop, idOf(params));
  if (!invoice) throw missing();
  if (!invoice.doc)
    throw new Refusal(invoice.refused?.message ?? "This draft cannot be printed.", invoice.refused?.remedy);
  const task = request.nextUrl.searchParams.get("on") === "sheet" ? "sheetPdf" : "invoicePdf";
  const pdf = await inWorker(shop, task, invoice.doc, { signal: request.signal });
  return pdfFile(pdf, `${KIND_FILES[invoice.kind]}-${invoice.written || "draft"}`);
});
