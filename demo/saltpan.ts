import type { DemoShop } from "./stage";

export async function buildSaltpan(shop: DemoShop, now: Date): Promise<void> {
  shop.as("owner", now);
}
