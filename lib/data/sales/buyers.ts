import type { ShopHandle } from "@/lib/db/shop";
import type { Buyer, Picks } from "@/lib/schemas/picks";
import { rowsMatching } from "../common/narrow";
import { isBlank, MOST_FOUND, picksOf } from "../common/picks";

/** Customers that hold every word typed, by name, for the counter; the newest where nothing is typed. */
export async function pickBuyers(shop: ShopHandle, text: string, most = MOST_FOUND): Promise<Picks<Buyer>> {
  const rows = await shop.read.customer.findMany({
    where: await rowsMatching(shop, "Customer", text),
    select: { id: true, name: true, phone: true, discountBp: true, discountClass: true },
    orderBy: isBlank(text) ? { id: "desc" } : [{ name: "asc" }, { id: "asc" }],
    take: most + 1,
  });
  return picksOf(rows, most, ({ id, name, phone, discountBp, discountClass }) => ({
    value: String(id),
    label: name,
    sub: phone,
    discountBp,
    discountClass,
  }));
}
