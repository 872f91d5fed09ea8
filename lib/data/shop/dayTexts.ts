import type { ShopTx } from "@/lib/db/shop";
import { dayWords } from "@/lib/domain/schedule/days";

/** How people of the shop write a day: for what a refusal says. */
export async function dayTexts(db: Pick<ShopTx, "settings">): Promise<(day: string) => string> {
  const { locale } = await db.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
  return (day) => dayWords(day, locale);
}
