import { findForSale } from "@/lib/data/sales/parts";
import { shopFile } from "@/lib/gate/route";

/** Parts that a scanned code or some words mean, at their list prices: the counter adds them without leaving its page. */
export const GET = shopFile("sale.write", async (shop, _params, request) => {
  const asked = (request.nextUrl.searchParams.get("code") ?? "").slice(0, 120);
  return Response.json({ parts: await findForSale(shop, asked) });
});
