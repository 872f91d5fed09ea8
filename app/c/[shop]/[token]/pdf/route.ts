import { shownInvoice } from "@/lib/data/invoices/shown";
import { invoicePdf } from "@/lib/documents/invoice";
import { openLink } from "@/lib/gate/customer";
import { file } from "@/lib/gate/route";
import { shutAnswer } from "@/lib/gate/shut";

/** The invoice of a customer's link as a PDF. A link that is for anything else, or does not open, has none. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ shop: string; token: string }> },
): Promise<Response> {
  const { shop, token } = await params;
  const link = await openLink(shop, token);
  if (link === "shut") return shutAnswer();
  const shown =
    typeof link === "string" || link.invoiceId === null
      ? null
      : await shownInvoice(link.shop, link.invoiceId);
  if (!shown) return new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });
  const kind = shown.doc.kind === "creditNote" ? "credit-note" : "invoice";
  const response = file(
    await invoicePdf(shown.doc),
    "application/pdf",
    `${kind}-${shown.doc.number}.pdf`,
    true,
  );
  response.headers.set("Cache-Control", "private, no-store");
  response.headers.set("Referrer-Policy", "same-origin");
  return response;
}
