import type { ShopHandle } from "@/lib/db/shop";
import type { Pick, Picks } from "@/lib/schemas/picks";
import { rowsMatching } from "../common/narrow";
import { isBlank, MOST_FOUND, picksOf } from "../common/picks";

const PICKED = { id: true, name: true, phone: true, email: true } as const;

const pickOf = (row: { id: number; name: string; phone: string; email: string }): Pick => ({
  value: String(row.id),
  label: row.name,
  sub: row.phone || row.email,
});

/** Customers that hold every word typed, by name; the newest where nothing is typed. */
export async function pickCustomers(shop: ShopHandle, text: string, most = MOST_FOUND): Promise<Picks> {
  const rows = await shop.read.customer.findMany({
    where: await rowsMatching(shop, "Customer", text),
    select: PICKED,
    orderBy: isBlank(text) ? { id: "desc" } : [{ name: "asc" }, { id: "asc" }],
    take: most + 1,
  });
  return picksOf(rows, most, pickOf);
}

/** One customer as a choice; null when there is none. */
export async function pickedCustomer(shop: ShopHandle, id: number | null | undefined): Promise<Pick | null> {
  const row = id == null ? null : await shop.read.customer.findUnique({ where: { id }, select: PICKED });
  return row && pickOf(row);
}
