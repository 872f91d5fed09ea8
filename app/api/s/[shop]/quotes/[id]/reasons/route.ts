import { priceRows } from "@/app/_documents/priceRows";
import { settingRows } from "@/app/_documents/settingRows";
import { getQuote } from "@/lib/data/quotes/get";
import { shopFile } from "@/lib/gate/route";
import { idOf, missing } from "../../../paper";

/** What a figure of a draft rests on: `?price=` the key of its row, or `?setting=` its key and `&of=` the carburettor. */
export const GET = shopFile("quote.read", async (shop, params, request) => {
  const quote = await getQuote(shop, idOf(params), { margin: false });
  if (!quote?.draft) throw missing();
  const asked = request.nextUrl.searchParams;
  const { price, target } = quote.draft;
  const found = asked.has("price")
    ? priceRows(price, quote.works, quote.terms.locale).find((row) => row.key === asked.get("price"))
    : settingRows(target.sheet, quote.terms.locale)
        .find((one) => one.key === asked.get("of"))
        ?.rows.find((row) => row.key === asked.get("setting"));
  if (!found) throw missing();
  return Response.json(found.because);
});
