import { findForSale, findKitsForSale } from "@/lib/data/sales/parts";
import { shopFile } from "@/lib/gate/route";

/** Parts and kits that a scanned code or some words mean, at their list prices: the counter adds them without leaving its page. */
export const GET = shopFile("sale.write", async (shop, _params, request) => {
  const asked = (request.nextUrl.searchParams.get("code") ?? "").slice(0, 120);
  const [parts, kits] = await Promise.all([findForSale(shop, asked), findKitsForSale(shop, asked)]);
  return Response.json({ parts, kits });
});
