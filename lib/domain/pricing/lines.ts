import { Decimal, roundHalfAway } from "../money/round";
import { amountOf, e4OfMinor, MILLI, majorText, priceText } from "../money/scale";
import type { Reason } from "../reason";
import { within } from "../refusal";
import { type LineTax, taxFor } from "../tax/rates";
import type { TaxedKind } from "../tax/regimes";
import type { FixedFact, LabourFact, PartFact, PriceFacts, PriceLine } from "./facts";
import { markedUp, markupBand } from "./markup";

/** A line as the shop shows it, before its net amount is known. */
export type ShownLine = Omit<PriceLine, "netMinor">;

/** What lines need of the facts. */
export type PriceBook = Pick<
  PriceFacts,
  "currency" | "pricesIncludeTax" | "taxRegime" | "taxRates" | "markupBands"
>;

const MOST = 1e12;

/** How a kind of line is taxed under the book's regime and rates. Throws as taxFor does. */
export function taxOf(book: PriceBook, kind: TaxedKind): LineTax {
  return taxFor(book.taxRegime, kind, book.taxRates);
}

const taxed = (tax: LineTax) => ({ taxCategory: tax.category, taxRateBp: tax.rateBp });
const taxReason = (tax: LineTax): Reason => ({ fact: tax.name, from: "tax regime of the shop" });

/**
 * Labour: minutes x hourly rate / 60, rounded once; the printed quantity is hours to three decimals.
 * Throws OutOfRange for minutes or rates below zero or without bound.
 */
export function labourLine(fact: LabourFact, book: PriceBook): ShownLine {
  const minutes = within(`minutes of "${fact.name}"`, fact.minutes, 0, 1e6, "min");
  const rate = within(`hourly rate of "${fact.name}"`, fact.ratePerHourMinor, 0, MOST);
  const cost = within(`hourly cost of "${fact.name}"`, fact.costPerHourMinor, 0, MOST);
  const ofHour = (perHour: number) => roundHalfAway(new Decimal(perHour).mul(minutes).div(60));
  const tax = taxOf(book, "labour");
  return {
    key: fact.key,
    kind: "labour",
    name: fact.name,
    quantityMilli: roundHalfAway(new Decimal(minutes).mul(MILLI).div(60)),
    unit: "h",
    unitPriceE4: e4OfMinor(rate, book.currency),
    shownMinor: ofHour(rate),
    costMinor: ofHour(cost),
    ...taxed(tax),
    because: [
      ...fact.because,
      {
        fact: `${minutes} min at ${majorText(rate, book.currency)} an hour`,
        from: `labour rate "${fact.grade}"`,
      },
      taxReason(tax),
    ],
  };
}

/** A part's unit price as shown (E4) with its reason; null where it has neither a set price nor a cost within a band. */
function unitPrice(fact: PartFact, book: PriceBook, tax: LineTax): { e4: number; why: Reason } | null {
  const { currency } = book;
  if (fact.unitPriceE4 !== null) {
    const e4 = within(`price of "${fact.name}"`, fact.unitPriceE4, 0, MOST);
    return { e4, why: { fact: `${priceText(e4, currency)} a ${fact.unit}`, from: "set price of the part" } };
  }
  const band = fact.unitCostE4 === null ? null : markupBand(book.markupBands, fact.unitCostE4);
  if (fact.unitCostE4 === null || !band) return null;
  const e4 = markedUp(fact.unitCostE4, band.markupBp, book.pricesIncludeTax ? tax.rateBp : 0);
  const upTo = band.upToE4 === null ? "anything dearer" : `up to ${priceText(band.upToE4, currency)}`;
  const effect = `${priceText(e4, currency)} a ${fact.unit}`;
  const sum = `cost ${priceText(fact.unitCostE4, currency)} plus ${band.markupBp / 100} %`;
  return { e4, why: { fact: sum, from: `markup band "${upTo}"`, effect } };
}

/** A part: set price, or cost plus its band's markup. `unpriced` is true where neither is known and it stands at 0. */
export function partLine(fact: PartFact, book: PriceBook): { line: ShownLine; unpriced: boolean } {
  const quantityMilli = within(`quantity of "${fact.name}"`, fact.quantityMilli, 0, MOST);
  const tax = taxOf(book, "part");
  const price = unitPrice(fact, book, tax);
  const cost = fact.unitCostE4 === null ? null : within(`cost of "${fact.name}"`, fact.unitCostE4, 0, MOST);
  const line: ShownLine = {
    key: fact.code,
    kind: "part",
    name: fact.name,
    quantityMilli,
    unit: fact.unit,
    unitPriceE4: price?.e4 ?? 0,
    shownMinor: amountOf(price?.e4 ?? 0, quantityMilli, book.currency),
    costMinor: cost === null ? null : amountOf(cost, quantityMilli, book.currency),
    ...taxed(tax),
    because: [
      price?.why ?? { fact: "no price", from: "part without set price, cost or markup band" },
      taxReason(tax),
    ],
  };
  return { line, unpriced: price === null };
}

/** A fixed price, or work done outside the shop. */
export function fixedLine(
  fact: FixedFact,
  kind: "fixed" | "outside",
  book: PriceBook,
  from = kind === "fixed" ? "fixed price of the package" : "work bought outside",
): ShownLine {
  const shownMinor = within(`price of "${fact.name}"`, fact.priceMinor, 0, MOST);
  const tax = taxOf(book, kind);
  return {
    key: fact.key,
    kind,
    name: fact.name,
    quantityMilli: MILLI,
    unit: "each",
    unitPriceE4: e4OfMinor(shownMinor, book.currency),
    shownMinor,
    costMinor: within(`cost of "${fact.name}"`, fact.costMinor, 0, MOST),
    ...taxed(tax),
    because: [{ fact: majorText(shownMinor, book.currency), from }, taxReason(tax)],
  };
}
