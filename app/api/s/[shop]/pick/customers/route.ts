import { pickCustomers } from "@/lib/data/customers/pick";
import { shopFile } from "@/lib/gate/route";
import { PickQuery } from "@/lib/schemas/picks";

export const GET = shopFile("customer.read", async (shop, _params, request) => {
  const { q } = PickQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return Response.json(await pickCustomers(shop, q));
});
