import { type OwnTexts, textsOfPackage, textsOfShop } from "@/lib/data/packages/ownTexts";
import { phrasesOf, savePhrases } from "@/lib/data/shop/phrases";
import type { ShopHandle } from "@/lib/db/shop";
import { FJELLREV_ENGLISH, HOYDE_ENGLISH } from "../packages/hoydeEnglish";

/** Writes the shop's own words in English too, for customers who chose it. */
export async function writeInEnglish(shop: ShopHandle, packageId: number): Promise<void> {
  await write(shop, await textsOfShop(shop), FJELLREV_ENGLISH);
  await write(shop, await textsOfPackage(shop, packageId), HOYDE_ENGLISH);
}

async function write(shop: ShopHandle, found: OwnTexts | null, english: Readonly<Record<string, string>>) {
  const phrases = await phrasesOf(shop, "en", found?.texts ?? []);
  const typed = phrases.flatMap(({ key, source, version }) => {
    const said = english[source];
    return said ? [[key, { said, version }] as const] : [];
  });
  await savePhrases(shop, "en", phrases, Object.fromEntries(typed));
}
