import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { saidOfNumber } from "@/lib/domain/tax/sellerNumber";
import { depositsRule } from "@/lib/domain/taxReport/deposits";
import { PERIOD_MONTHS } from "@/lib/domain/taxReport/periods";

type Db = Pick<ShopTx, "taxTerms">;

/** Whether the shop is in the register of companies that its country wants named. */
export async function inCompanyRegister(db: Db): Promise<boolean> {
  const row = await db.taxTerms.findUnique({ where: { id: 1 }, select: { inCompanyRegister: true } });
  return row?.inCompanyRegister ?? false;
}

/** How the shop reports its tax: its own choice, or where it made none what its regime has. */
export async function taxTermsOf(db: Db, regime: string) {
  const row = await db.taxTerms.findUnique({ where: { id: 1 } });
  const chosen = row?.depositsDue ?? "";
  return {
    basis: row?.basis === "paid" ? ("paid" as const) : ("issued" as const),
    periodMonths: PERIOD_MONTHS.find((months) => months === row?.periodMonths) ?? 3,
    /** Empty: as the regime has it. */
    chosen,
    depositsReceived: (chosen || depositsRule(regime).due) === "received",
  };
}

/** Chooses how tax is reported. Nothing that was issued or paid changes by it. */
export async function saveTaxTerms(
  shop: ShopHandle,
  data: { readonly basis: "issued" | "paid"; readonly periodMonths: number; readonly depositsDue: string },
): Promise<void> {
  await shop.write(async (tx) => {
    await tx.taxTerms.upsert({
      where: { id: 1 },
      create: { id: 1, ...data },
      update: { ...data, version: { increment: 1 } },
      select: { id: true },
    });
    await audit(tx, shop, "changed", "settings", null, data);
  });
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
