import type { ShopTx } from "@/lib/db/shop";

/** The shop's time zone. */
export async function zoneIn(tx: Pick<ShopTx, "settings">): Promise<string> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  return zone;
}
