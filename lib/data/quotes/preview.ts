import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { dayIn } from "@/lib/domain/schedule/days";
import type { FrozenQuote } from "../documents/quote";
import { freeze, letterheadOf } from "./freeze";
import { factsOf, findQuote } from "./rows";
import { spokenTo, titled } from "./spoken";

/** A draft as it would print if it were sent now; null where there is no such draft. */
export async function previewQuote(shop: ShopHandle, id: number): Promise<FrozenQuote | null> {
  const found = await findQuote(shop.read, id);
  if (found?.quote.state !== "draft") return null;
  const { language } = found.quote.customer;
  const { facts, say } = await spokenTo(shop.read, await factsOf(shop.read, found, shop.now), language);
  const today = dayIn(facts.terms.zone, shop.now);
  return freeze(titled(found, say), facts, computeQuote(facts), await letterheadOf(shop.read, say), today);
}
