import type { ShopTx } from "@/lib/db/shop";
import { numberSaid } from "./taxTerms";

/** The shop as every paper of it says whose it is. */
export async function senderIn(db: Pick<ShopTx, "settings" | "taxTerms">) {
  const { taxRegime, ...shop } = await db.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      name: true,
      legalName: true,
      address: true,
      phone: true,
      email: true,
      taxNumber: true,
      taxRegime: true,
      locale: true,
      country: true,
      units: true,
    },
  });
  return { ...shop, ...(await numberSaid(db, { taxRegime, country: shop.country })) };
}
