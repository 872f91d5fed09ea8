import { sentQuotePaper } from "@/lib/data/papers/quote";
import { quotePdf } from "@/lib/documents/quote";
import { shopFile } from "@/lib/gate/route";
import { idOf, missing, pdfFile } from "../../../paper";

/** The newest sent revision of a quote, or `?revision=`. */
export const GET = shopFile("quote.read", async (shop, params, request) => {
  const asked = request.nextUrl.searchParams.get("revision") ?? "";
  const quote = await sentQuotePaper(
    shop,
    idOf(params),
    /^[1-9]\d{0,6}$/.test(asked) ? Number(asked) : undefined,
  );
  if (!quote) throw missing();
  return pdfFile(await quotePdf(quote, shop.settings.country), `quote-${quote.number}-${quote.revision}`);
});
