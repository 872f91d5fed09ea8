import { cardsToKeep } from "@/lib/data/today/cardsToKeep";
import { shopFile } from "@/lib/gate/route";

/** The cards that a person's device keeps, and the server's time. */
export const GET = shopFile("job.read", async (shop) =>
  Response.json({
    who: `${shop.shopId}:${shop.by.personId}`,
    now: shop.now.getTime(),
    cards: shop.can("job.work") ? await cardsToKeep(shop) : [],
  }),
);
