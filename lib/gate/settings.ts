import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";

export type ShopSettings = Prisma.SettingsGetPayload<object>;

/** The shop's one settings row and the staff row of the person who acts. */
export async function shopSettings(
  shop: ShopHandle,
  personId: string,
): Promise<{ settings: ShopSettings; staffId: number | null }> {
  const [settings, staff] = await Promise.all([
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 } }),
    shop.read.staff.findUnique({ where: { personId }, select: { id: true } }),
  ]);
  return { settings, staffId: staff?.id ?? null };
}
