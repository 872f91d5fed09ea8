import { pickBuyers } from "@/lib/data/sales/buyers";
import { shopFile } from "@/lib/gate/route";
import { PickQuery } from "@/lib/schemas/picks";

/** Customers for the counter, which also needs the discount that is theirs. */
export const GET = shopFile("sale.write", async (shop, _params, request) => {
  const { q } = PickQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return Response.json(await pickBuyers(shop, q));
});
