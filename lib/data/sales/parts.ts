import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PriceRules } from "@/lib/domain/pricing/lines";
import { partLine } from "@/lib/domain/pricing/partLines";
import type { KitForSale, PartForSale } from "@/lib/domain/pricing/sale";
import { dayIn } from "@/lib/domain/schedule/days";
import { ratesOf, taxMark } from "@/lib/domain/tax/rates";
import { laterThan } from "../invoices/order";
import { findKits } from "../kits/read";
import { markups } from "../shop/prices";
import { findScanned } from "../stock/find";

const ROW = {
  id: true,
  code: true,
  name: true,
  unit: true,
  onHandMilli: true,
  reservedMilli: true,
  priceE4: true,
  costE4: true,
  averageE4: true,
  taxCategory: true,
} satisfies Prisma.PartSelect;

type Db = Pick<ShopTx, "settings" | "markupBand" | "part">;

/** How the shop prices and taxes what it sells. */
export async function saleBookOf(db: Db): Promise<PriceRules> {
  const settings = await db.settings.findUniqueOrThrow({ where: { id: 1 } });
  const markupBands = await markups(db);
  const { currency, locale, pricesIncludeTax, taxRegime } = settings;
  return {
    currency,
    locale,
    pricesIncludeTax,
    taxRegime,
    taxRates: ratesOf(settings),
    markupBands,
  };
}

/** Some parts at their list prices, in no order. */
export async function partsForSaleIn(
  db: Db,
  ids: readonly number[],
  book: PriceRules,
): Promise<PartForSale[]> {
  const rows = await db.part.findMany({
    where: { id: { in: [...ids] } },
    select: ROW,
    orderBy: { id: "asc" },
    take: 100,
  });
  return rows.map((row) => {
    const mark = taxMark(row.taxCategory);
    const { code, name, unit } = row;
    const { line, unpriced } = partLine(
      {
        code,
        name,
        unit,
        quantityMilli: 1000,
        unitCostE4: row.averageE4 ?? row.costE4,
        unitPriceE4: row.priceE4,
        ...(mark ? { taxMark: mark } : {}),
      },
      book,
    );
    return {
      id: row.id,
      code,
      name,
      unit,
      freeMilli: row.onHandMilli - row.reservedMilli,
      priceE4: unpriced ? null : line.unitPriceE4,
      taxMark: mark,
    };
  });
}

/** What a label or some words mean at the counter, in the order that the search found them. */
export async function findForSale(shop: ShopHandle, text: string): Promise<PartForSale[]> {
  const found = await findScanned(shop, text);
  if (found.length === 0) return [];
  const priced = await partsForSaleIn(
    shop.read,
    found.map((one) => one.id),
    await saleBookOf(shop.read),
  );
  return found.flatMap((one) => priced.filter((part) => part.id === one.id));
}

/** Kits that a code or some words mean, each with its parts as the counter sells them. One with a part put away is not sold. */
export async function findKitsForSale(shop: ShopHandle, text: string): Promise<KitForSale[]> {
  const book = await saleBookOf(shop.read);
  const kits = (await findKits(shop, text, book)).filter(({ parts }) => parts.every(({ active }) => active));
  if (kits.length === 0) return [];
  const ids = [...new Set(kits.flatMap(({ parts }) => parts.map(({ id }) => id)))];
  const priced = await partsForSaleIn(shop.read, ids.slice(0, 100), book);
  return kits.flatMap(({ code, name, priceMinor, parts }) => {
    const opened = parts.flatMap(({ id, quantityMilli }) => {
      const part = priced.find((one) => one.id === id);
      return part ? [{ part, quantityMilli }] : [];
    });
    return opened.length === parts.length ? [{ code, name, priceMinor, parts: opened }] : [];
  });
}

/** What the counter's page reckons with; `later` where today's date is before the last document's. */
export async function counterTerms(shop: ShopHandle) {
  const { markupBands: _, ...rules } = await saleBookOf(shop.read);
  const { zone, cashRoundingMinor } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, cashRoundingMinor: true },
  });
  const today = dayIn(zone, shop.now);
  return { rules, stepMinor: cashRoundingMinor, today, later: await laterThan(shop.read, today) };
}
