import { moneyText } from "../money/format";
import { roundHalfAway } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import { unitPriceText } from "../money/unitPrice";
import type { Reason } from "../reason";
import { within } from "../refusal";
import type { LineTax } from "../tax/rates";
import type { KitShare, PartFact, UnsettledFact } from "./facts";
import { MOST, ofWork, type PriceRules, type ShownLine, taxed, taxOf, taxReason } from "./lines";
import { markedUp, markupBand } from "./markup";

type Priced = Pick<PartFact, "name" | "unit" | "unitCostE4" | "unitPriceE4">;

/** A part's unit price as shown (E4) with its reason; null where it has neither a set price nor a cost within a band. */
function unitPrice(fact: Priced, book: PriceRules, tax: LineTax): { e4: number; why: Reason } | null {
  const text = (e4: number) => unitPriceText(e4, book.currency, book.locale);
  if (fact.unitPriceE4 !== null) {
    const e4 = within(`price of "${fact.name}"`, fact.unitPriceE4, 0, MOST);
    return { e4, why: { fact: `${text(e4)} a ${fact.unit}`, from: "set price of the part" } };
  }
  const band = fact.unitCostE4 === null ? null : markupBand(book.markupBands, fact.unitCostE4);
  if (fact.unitCostE4 === null || !band) return null;
  const e4 = markedUp(fact.unitCostE4, band.markupBp, book.pricesIncludeTax ? tax.rateBp : 0);
  const upTo = band.upToE4 === null ? "anything dearer" : `up to ${text(band.upToE4)}`;
  const sum = `cost ${text(fact.unitCostE4)} plus ${band.markupBp / 100} %`;
  return { e4, why: { fact: sum, from: `markup band "${upTo}"`, effect: `${text(e4)} a ${fact.unit}` } };
}

/**
 * A part: set price, or cost plus its band's markup. `unpriced` is true where neither is known and it stands at 0. A part that is
 * settled when it is fitted stands at 0 with a name that says what one may come to, costs nothing yet and is not unpriced.
 */
export function partLine(fact: PartFact, book: PriceRules): { line: ShownLine; unpriced: boolean } {
  const quantityMilli = within(`quantity of "${fact.name}"`, fact.quantityMilli, 0, MOST);
  const tax = taxOf(book, "part", fact.taxMark);
  if (fact.unsettled)
    return { line: unsettledLine(fact, fact.unsettled, quantityMilli, book, tax), unpriced: false };
  if (fact.kit) return { line: kitLine(fact, fact.kit, quantityMilli, book, tax), unpriced: false };
  const price = unitPrice(fact, book, tax);
  const line: ShownLine = {
    ...bareLine(fact, quantityMilli, tax),
    unitPriceE4: price?.e4 ?? 0,
    shownMinor: amountOf(price?.e4 ?? 0, quantityMilli, book.currency),
    costMinor: costOfLine(fact, quantityMilli, book),
    because: [
      price?.why ?? { fact: "no price", from: "part without set price, cost or markup band" },
      taxReason(tax, fact.taxMark),
    ],
  };
  return { line, unpriced: price === null };
}

function costOfLine({ name, unitCostE4 }: PartFact, quantityMilli: number, { currency }: PriceRules) {
  if (unitCostE4 === null) return null;
  return amountOf(within(`cost of "${name}"`, unitCostE4, 0, MOST), quantityMilli, currency);
}

/** The amount is exact; the price of one is what comes nearest to it. */
function kitLine(
  fact: PartFact,
  { code, name, amountMinor }: KitShare,
  quantityMilli: number,
  book: PriceRules,
  tax: LineTax,
): ShownLine {
  const shownMinor = within(`share of "${fact.name}" in a kit`, amountMinor, 0, MOST);
  return {
    ...bareLine(fact, quantityMilli, tax),
    name: `${fact.name} (${name})`,
    unitPriceE4: roundHalfAway((e4OfMinor(shownMinor, book.currency) * MILLI) / Math.max(1, quantityMilli)),
    shownMinor,
    costMinor: costOfLine(fact, quantityMilli, book),
    because: [
      {
        fact: moneyText(shownMinor, book.currency, book.locale),
        from: `set price of the kit “${name}”, shared over its parts by their own prices`,
      },
      taxReason(tax, fact.taxMark),
    ],
    kit: { code, name },
  };
}

const bareLine = (fact: PartFact, quantityMilli: number, tax: LineTax) => ({
  key: fact.key ?? fact.code,
  ...ofWork(fact),
  kind: "part" as const,
  name: fact.name,
  quantityMilli,
  unit: fact.unit,
  ...taxed(tax),
});

function unsettledLine(
  fact: PartFact,
  { name, size, sizes, setting, family }: UnsettledFact,
  quantityMilli: number,
  book: PriceRules,
  tax: LineTax,
): ShownLine {
  const prices = sizes.flatMap((one) => {
    const price = unitPrice({ ...one, name, unit: fact.unit }, book, tax);
    return price ? [amountOf(price.e4, MILLI, book.currency)] : [];
  });
  const range = rangeText(prices, book);
  const settles =
    size === null ? `${name}, size settled when it is fitted` : `${name} ${size}, settled when it is fitted`;
  return {
    ...bareLine(fact, quantityMilli, tax),
    name: range === null ? `${settles}: price added then` : `${settles}: ${range} each, added then`,
    unitPriceE4: 0,
    shownMinor: 0,
    costMinor: 0,
    because: [
      {
        fact: range === null ? "no price of this family is known" : `${range} each`,
        from: `the prices of “${family}” in the drawer`,
        effect: "charged when it is fitted, at its own price",
      },
      taxReason(tax, fact.taxMark),
    ],
    unsettled: { setting, family },
  };
}

function rangeText(prices: readonly number[], { currency, locale }: PriceRules): string | null {
  if (prices.length === 0) return null;
  const [low, high] = [Math.min(...prices), Math.max(...prices)];
  const text = (minor: number) => moneyText(minor, currency, locale);
  return low === high ? text(low) : `${text(low)} to ${text(high)}`;
}
