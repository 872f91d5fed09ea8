import type { ShopTx } from "@/lib/db/shop";
import { sellerOf } from "../invoices/compose";
import { inCompanyRegister } from "../shop/taxTerms";

/** Who a paper is from, and how the shop counts. */
export async function letterheadOf(db: Pick<ShopTx, "settings" | "taxTerms">) {
  const [settings, registered] = await Promise.all([
    db.settings.findUniqueOrThrow({ where: { id: 1 } }),
    inCompanyRegister(db),
  ]);
  const { zone, country, currency, locale, taxRegime } = settings;
  return {
    seller: sellerOf({ ...settings, inCompanyRegister: registered }, taxRegime),
    zone,
    country,
    currency,
    locale,
  };
}
