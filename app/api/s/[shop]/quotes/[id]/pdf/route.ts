import { sentQuotePaper } from "@/lib/data/papers/quote";
import { askedId } from "@/lib/gate/ids";
import { shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** The newest sent revision of a quote, or `?revision=`. */
export const GET = shopFile("quote.read", async (shop, params, request) => {
  const asked = request.nextUrl.searchParams.get("revision");
  const quote = await sentQuotePaper(shop, idOf(params), askedId(asked));
  if (!quote) throw missing();
  const { country } = shop.settings;
  const pdf = await inWorker(shop, "quotePdf", { quote, country }, { signal: request.signal });
  return pdfFile(pdf, `quote-${quote.number}-${quote.revision}`);
});
