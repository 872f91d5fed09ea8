import { shownInvoice } from "@/lib/data/invoices/shown";
import { openLink } from "@/lib/gate/customer";
import { file, refused } from "@/lib/gate/route";
import { shutAnswer } from "@/lib/gate/shut";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { inWorker } from "@/lib/workers/pool";

/** The invoice of a customer's link as a PDF. A link that is for anything else, or does not open, has none. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ shop: string; token: string }> },
): Promise<Response> {
  const { shop, token } = await params;
  const link = await openLink(shop, token);
  if (link === "shut") return shutAnswer();
  const shown =
    typeof link === "string" || link.invoiceId === null
      ? null
      : await shownInvoice(link.shop, link.invoiceId);
  if (!shown || typeof link === "string")
    return new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });
  let response: Response;
  try {
    const pdf = await inWorker(link.shop, "invoicePdf", shown.doc, { signal: request.signal });
    response = file(pdf, "application/pdf", `${KIND_FILES[shown.doc.kind]}-${shown.doc.written}.pdf`, true);
  } catch (cause) {
    return refused(cause);
  }
  response.headers.set("Cache-Control", "private, no-store");
  response.headers.set("Referrer-Policy", "same-origin");
  return response;
}
