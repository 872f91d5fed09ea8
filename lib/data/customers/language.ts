import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { Language } from "@/lib/words/language";

/** The language a customer chose for themselves: it counts no version, so that it never stands in the desk's way. */
export async function speakTo(
  shop: ShopHandle,
  { id, language }: { id: number; language: Language },
): Promise<void> {
  await shop.write(async (tx) => {
    const { count } = await tx.customer.updateMany({
      where: { id, language: { not: language } },
      data: { language },
    });
    if (count > 0) await audit(tx, shop, "chose a language as", "customer", id, { language });
  });
}
