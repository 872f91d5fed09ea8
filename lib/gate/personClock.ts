import { shopsOf } from "@/lib/data/people/shops";
import { enter } from "./open";

/** How times are shown to a person outside any shop: as in their first shop, else in UTC. */
export async function personClock(personId: string): Promise<{ locale: string; zone: string }> {
  const [first] = await shopsOf(personId);
  const shop = first ? await enter(first.slug) : "missing";
  return typeof shop === "string"
    ? { locale: "en-GB", zone: "UTC" }
    : { locale: shop.settings.locale, zone: shop.settings.zone };
}
