import { marksOf } from "@/lib/domain/money/format";
import { priceText } from "@/lib/domain/money/scale";
import type { PricedQuote } from "@/lib/domain/pricing/facts";
import { openKit } from "@/lib/domain/pricing/kit";
import {
  type KitForSale,
  type PartForSale,
  priceSale,
  type SaleRules,
  type SoldPart,
} from "@/lib/domain/pricing/sale";
import { Refusal } from "@/lib/domain/refusal";
import { quantityText } from "@/lib/schemas/quantity";
import { PRICE_E4, typedQuantity, typedScaled, typedShare } from "@/lib/schemas/typedFigures";

/** A line of a sale as it is typed. */
export interface TypedLine {
  readonly part: PartForSale;
  readonly quantity: string;
  readonly price: string;
  readonly discount: string;
  /** The kits it was opened from, and how many of them. */
  readonly kit?: { readonly code: string; readonly count: number };
}

/** How the shop prices: what every line and total follows. */
export type CounterRules = Omit<SaleRules, "discountBp" | "discountWhy">;

const MILLI = 1000;

/** A part scanned: one more on its line, or a line of its own. Pieces begin with one; what is measured waits for a quantity. */
export function withPart(lines: readonly TypedLine[], part: PartForSale, rules: CounterRules): TypedLine[] {
  const at = lines.findIndex((line) => line.part.id === part.id);
  if (at >= 0) return part.unit === "each" ? stepped(lines, at, 1) : [...lines];
  const { decimal } = marksOf(rules.locale);
  const price = part.priceE4 === null ? "" : priceText(part.priceE4, rules.currency).replace(".", decimal);
  return [...lines, { part, quantity: part.unit === "each" ? "1" : "", price, discount: "" }];
}

/**
 * A kit opened into lines of its parts, at prices that add up to the kit's; once more for one that is opened already. Null where
 * a part of it stands on the sale by itself: one part has one price on one receipt.
 */
export function withKit(
  lines: readonly TypedLine[],
  { code, priceMinor, parts }: KitForSale,
  rules: CounterRules,
): TypedLine[] | null {
  const others = lines.filter((line) => line.kit?.code !== code);
  if (others.some((line) => parts.some(({ part }) => part.id === line.part.id))) return null;
  const count = 1 + (lines.find((line) => line.kit?.code === code)?.kit?.count ?? 0);
  const { decimal } = marksOf(rules.locale);
  const priced = parts.map(({ part, quantityMilli }) => ({
    code: part.code,
    quantityMilli,
    priceE4: part.priceE4,
  }));
  const opened = openKit(priced, priceMinor, count, rules.currency);
  const price = (e4: number | null) =>
    e4 === null ? "" : priceText(e4, rules.currency).replace(".", decimal);
  return [
    ...others,
    ...parts.flatMap(({ part }, at): TypedLine[] => {
      const line = opened[at];
      if (!line) return [];
      const quantity = quantityText(line.quantityMilli, "each");
      return [{ part, quantity, price: price(line.unitPriceE4), discount: "", kit: { code, count } }];
    }),
  ];
}

/** A line with so many more pieces, or fewer; none left takes it away. */
export function stepped(lines: readonly TypedLine[], at: number, by: number): TypedLine[] {
  return lines.flatMap((line, place) => {
    if (place !== at) return [line];
    const now = typedQuantity(line.quantity);
    const next = ("value" in now ? now.value : 0) + by * MILLI;
    return next > 0 ? [{ ...line, quantity: quantityText(next, "each") }] : [];
  });
}

export interface Reckoned {
  readonly priced: PricedQuote | null;
  /** Why there is no total. */
  readonly why: string;
}

/** What is typed of a line, read as the server will; or the first thing that is wrong with it. */
function readLine(line: TypedLine) {
  const quantity = typedQuantity(line.quantity);
  if ("wrong" in quantity) return quantity;
  const price = typedScaled(line.price, PRICE_E4);
  if ("wrong" in price) return price;
  if (price.value === null) return { wrong: "Enter the price of one." };
  const discount = typedShare(line.discount);
  if ("wrong" in discount) return discount;
  return { quantityMilli: quantity.value, unitPriceE4: price.value, discountBp: discount.value };
}

/** The sale as typed so far, priced by the same rules as the server's. */
export function reckoned(lines: readonly TypedLine[], discount: string, rules: CounterRules): Reckoned {
  const sold: SoldPart[] = [];
  for (const line of lines) {
    const { code, name, unit, taxMark } = line.part;
    const read = readLine(line);
    if ("wrong" in read) return { priced: null, why: `${code}: ${read.wrong}` };
    sold.push({ code, name, unit, ...read, ...(taxMark ? { taxMark } : {}) });
  }
  const whole = typedShare(discount);
  if ("wrong" in whole) return { priced: null, why: whole.wrong };
  try {
    return { priced: priceSale(sold, { ...rules, discountBp: whole.value, discountWhy: "" }), why: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { priced: null, why: cause.message };
  }
}
