import { pickModelCards } from "@/lib/data/bikes/pick";
import { shopFile } from "@/lib/gate/route";
import { PickQuery } from "@/lib/schemas/picks";

export const GET = shopFile("bike.read", async (shop, _params, request) => {
  const { q } = PickQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return Response.json(await pickModelCards(shop, q));
});
