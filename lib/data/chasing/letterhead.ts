import type { ShopTx } from "@/lib/db/shop";
import { sellerOf } from "../invoices/compose";
import { inCompanyRegister } from "../shop/taxTerms";

/** Who a paper is from, and how the shop counts. */
export async function letterheadOf(db: Pick<ShopTx, "settings" | "taxTerms">) {
  const settings = await db.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { zone, country, currency, locale, taxRegime } = settings;
  const registered = await inCompanyRegister(db);
  return {
    seller: sellerOf({ ...settings, inCompanyRegister: registered }, taxRegime),
    zone,
    country,
    currency,
    locale,
  };
}
