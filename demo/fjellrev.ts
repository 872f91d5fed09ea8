import type { DemoShop } from "./stage";

export async function buildFjellrev(shop: DemoShop, now: Date): Promise<void> {
  shop.as("owner", now);
}
