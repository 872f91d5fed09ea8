import { pickParts } from "@/lib/data/stock/pick";
import { shopFile } from "@/lib/gate/route";
import { PickQuery } from "@/lib/schemas/picks";

export const GET = shopFile("stock.read", async (shop, _params, request) => {
  const { q, families } = PickQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return Response.json(await pickParts(shop, q, { families }));
});
