import type { NextRequest } from "next/server";
import { shownInvoice } from "@/lib/data/invoices/shown";
import { invoiceOfJob } from "@/lib/data/papers/ofJob";
import { sentQuoteOf } from "@/lib/data/papers/quote";
import { shownQuote } from "@/lib/data/quotes/shown";
import { linkFile } from "@/lib/gate/linkFile";
import { idIn } from "@/lib/schemas/ids";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { inWorker } from "@/lib/workers/pool";

/** The quote or invoice of a customer's link as a PDF; of a job's page, the invoice that `?invoice=` names. */
export const GET = linkFile(async (link, request: NextRequest) => {
  const { shop, locale } = link;
  const { signal } = request;
  const asked = idIn(request.nextUrl.searchParams.get("invoice") ?? undefined);
  const invoiceId = link.invoiceId ?? (asked === null ? null : await invoiceOfJob(shop, link, asked));
  if (invoiceId !== null) {
    const shown = await shownInvoice(shop, invoiceId);
    if (!shown) return null;
    const body = await inWorker(shop, "invoicePdf", shown.doc, { signal });
    return { body, type: "application/pdf", name: `${KIND_FILES[shown.doc.kind]}-${shown.doc.written}.pdf` };
  }
  if (asked !== null || link.purpose !== "quote" || link.revisionId === null) return null;
  // A quote that was declined, has run out or was changed tells no more of itself.
  const shown = await shownQuote(shop, link.revisionId);
  const quote =
    shown?.state === "sent" || shown?.state === "accepted" ? await sentQuoteOf(shop, link.revisionId) : null;
  if (!quote) return null;
  const { country } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { country: true },
  });
  const body = await inWorker(shop, "quotePdf", { quote: { ...quote, locale }, country }, { signal });
  return { body, type: "application/pdf", name: `quote-${quote.number}-${quote.revision}.pdf` };
});
