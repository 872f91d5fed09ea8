import { getInvoice } from "@/lib/data/invoices/get";
import { Refusal } from "@/lib/domain/refusal";
import { file, shopFile } from "@/lib/gate/route";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing } from "../../../paper";

/** The e-invoice of an issued document. */
export const GET = shopFile("invoice.read", async (shop, params, { signal }) => {
  const invoice = await getInvoice(shop, idOf(params));
  if (!invoice) throw missing();
  if (invoice.state === "draft" || !invoice.doc)
    throw new Refusal("A draft is no e-invoice.", "Issue it first.", {}, "conflict");
  const xml = await inWorker(shop, "einvoiceXml", invoice.doc, { signal });
  return file(xml, "application/xml", `${KIND_FILES[invoice.kind]}-${invoice.written}.xml`);
});
