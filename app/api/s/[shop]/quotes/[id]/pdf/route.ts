import { sentQuotePaper } from "@/lib/data/papers/quote";
import { quotePdf } from "@/lib/documents/quote";
import { askedId } from "@/lib/gate/ids";
import { shopFile } from "@/lib/gate/route";
import { idOf, missing, pdfFile } from "../../../paper";

/** The newest sent revision of a quote, or `?revision=`. */
export const GET = shopFile("quote.read", async (shop, params, request) => {
  const asked = request.nextUrl.searchParams.get("revision");
  const quote = await sentQuotePaper(shop, idOf(params), askedId(asked));
  if (!quote) throw missing();
  return pdfFile(await quotePdf(quote, shop.settings.country), `quote-${quote.number}-${quote.revision}`);
});
