import { createPart } from "@/lib/data/parts/save";
import { type Sell, sell } from "@/lib/data/sales/sell";
import type { ShopHandle } from "@/lib/db/shop";
import { NewPartSchema } from "@/lib/schemas/parts";

let made = 0;

/** A part with stock in bin A and a set price. */
export const partToSell = (shop: ShopHandle, more: Record<string, string> = {}): Promise<number> =>
  createPart(
    shop,
    NewPartSchema.parse({
      code: `CS-${++made}`,
      name: "Main jet",
      kind: "other",
      unit: "each",
      bin: "A",
      opening: "10",
      cost: "2.00",
      price: "8.42",
      ...more,
    }),
  );

type Line = Sell["lines"][number];
export const line = (partId: number, pieces: number, priceE4: number, more: Partial<Line> = {}): Line => ({
  partId,
  quantity: pieces * 1000,
  price: priceE4,
  discount: 0,
  ...more,
});

/** A sale in cash, given exactly, to someone who walked in. */
export const saleOf = (lines: readonly Line[], more: Partial<Sell> = {}): Sell => ({
  lines: [...lines],
  discount: 0,
  discountWhy: "",
  paper: "receipt",
  method: "cash",
  givenMinor: null,
  customerId: undefined,
  ...more,
});

/** Sells and answers the sale with its documents, payments and moves. */
export async function sold(shop: ShopHandle, input: Sell) {
  const id = await sell(shop, input);
  return saleNow(shop, id);
}

export async function saleNow(shop: ShopHandle, id: number) {
  const sale = await shop.read.sale.findUniqueOrThrow({
    where: { id },
    include: { invoices: { orderBy: { id: "asc" } }, payments: { orderBy: { id: "asc" } } },
  });
  const moves = await shop.read.move.findMany({ where: { saleId: id }, orderBy: { id: "asc" } });
  return { ...sale, moves };
}
