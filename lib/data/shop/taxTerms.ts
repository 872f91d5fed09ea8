import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { saidOfNumber } from "@/lib/domain/tax/sellerNumber";

type Db = Pick<ShopTx, "taxTerms">;

/** Whether the shop is in the register of companies that its country wants named. */
export async function inCompanyRegister(db: Db): Promise<boolean> {
  const row = await db.taxTerms.findUnique({ where: { id: 1 }, select: { inCompanyRegister: true } });
  return row?.inCompanyRegister ?? false;
}

/** What the shop's papers say of its number. */
export async function numberSaid(db: Db, settings: { readonly taxRegime: string; readonly country: string }) {
  return saidOfNumber(settings.taxRegime, settings.country, await inCompanyRegister(db));
}

/** Says whether the shop is in that register: papers from now on bear it. */
export async function sayInCompanyRegister(shop: ShopHandle, on: boolean): Promise<void> {
  await shop.write(async (tx) => {
    await tx.taxTerms.upsert({
      where: { id: 1 },
      create: { id: 1, inCompanyRegister: on },
      update: { inCompanyRegister: on, version: { increment: 1 } },
      select: { id: true },
    });
    await audit(tx, shop, "changed", "settings", null, { inCompanyRegister: on });
  });
}
