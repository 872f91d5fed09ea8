import type { ShopHandle } from "@/lib/db/shop";

/** Names of the shop's people by their id. */
export async function staffNames(shop: ShopHandle): Promise<Map<number, string>> {
  const rows = await shop.read.staff.findMany({
    select: { id: true, name: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  return new Map(rows.map((row) => [row.id, row.name]));
}
