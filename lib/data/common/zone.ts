import type { ShopTx } from "@/lib/db/shop";

/** The shop's time zone. */
export async function zoneIn(tx: Pick<ShopTx, "settings">): Promise<string> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  return zone;
}

/** The shop's clock, and how its people write what it shows. */
export interface Clock {
  readonly zone: string;
  readonly locale: string;
}

export async function clockIn(tx: Pick<ShopTx, "settings">): Promise<Clock> {
  return tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true, locale: true } });
}
