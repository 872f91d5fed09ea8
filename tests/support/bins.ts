import { createPart } from "@/lib/data/parts/save";
import type { ShopHandle } from "@/lib/db/shop";
import { NewPartSchema } from "@/lib/schemas/parts";

let made = 0;

/** A part of its own code, with the usual bin A unless another is said. */
export const binnedPart = (shop: ShopHandle, more: Record<string, string> = {}): Promise<number> =>
  createPart(
    shop,
    NewPartSchema.parse({
      code: `BN-${++made}`,
      name: "Pilot jet",
      kind: "other",
      unit: "each",
      bin: "A",
      ...more,
    }),
  );

/** What lies where, in thousandths by bin; bins that hold none left out. */
export async function lying(shop: ShopHandle, partId: number): Promise<Record<string, number>> {
  const rows = await shop.read.partBin.findMany({
    where: { partId, onHandMilli: { not: 0 } },
    select: { bin: true, onHandMilli: true },
    orderBy: { bin: "asc" },
  });
  return Object.fromEntries(rows.map((row) => [row.bin, row.onHandMilli]));
}
