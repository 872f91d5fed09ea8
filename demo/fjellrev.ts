import type { DemoShop } from "./stage";

export async function buildFjellrev(shop: DemoShop, now: Date, opened: Date): Promise<void> {
  shop.as("owner", opened < now ? opened : now);
}
