import { product, quotient } from "../money/exact";
import { moneyText } from "../money/format";
import { roundHalfAway } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import type { Reason } from "../reason";
import { within } from "../refusal";
import { type LineTax, type TaxMark, taxFor } from "../tax/rates";
import type { TaxedKind } from "../tax/regimes";
import type { FixedFact, LabourFact, PriceFacts, PriceLine } from "./facts";
import { saidAs } from "./said";

/** A line as the shop shows it, before its net amount is known. */
export type ShownLine = Omit<PriceLine, "netMinor">;

/** What lines need of the facts. */
export type PriceRules = Pick<
  PriceFacts,
  "currency" | "locale" | "pricesIncludeTax" | "taxRegime" | "taxRates" | "markupBands"
>;

/** No amount, rate or quantity of one line is above this. */
export const MOST = 1e12;

/** How a kind of line is taxed under the book's regime and rates. Throws as taxFor does. */
export function taxOf(book: PriceRules, kind: TaxedKind, marked: TaxMark = ""): LineTax {
  return taxFor(book.taxRegime, kind, book.taxRates, marked);
}

/** The columns of a line that say how it is taxed. */
export const taxed = (tax: LineTax) => ({ taxCategory: tax.category, taxRateBp: tax.rateBp });
export const taxReason = (tax: LineTax, marked: TaxMark = ""): Reason => ({
  fact: tax.name,
  from: marked === "" ? "tax regime of the shop" : "marked so by the shop",
});

/**
 * Labour: minutes x hourly rate / 60, rounded once; the printed quantity is hours to three decimals.
 * Throws OutOfRange for minutes or rates below zero or without bound.
 */
export function labourLine(fact: LabourFact, book: PriceRules): ShownLine {
  const minutes = within(`minutes of "${fact.name}"`, fact.minutes, 0, 1e6, "min");
  const rate = within(`hourly rate of "${fact.name}"`, fact.ratePerHourMinor, 0, MOST);
  const cost = within(`hourly cost of "${fact.name}"`, fact.costPerHourMinor, 0, MOST);
  const ofHour = (perHour: number) => roundHalfAway(quotient(product(perHour, minutes), 60));
  const tax = taxOf(book, "labour");
  return {
    key: fact.key,
    ...ofWork(fact),
    kind: "labour",
    name: fact.name,
    ...saidAs(fact),
    quantityMilli: roundHalfAway(quotient(product(minutes, MILLI), 60)),
    unit: "h",
    unitPriceE4: e4OfMinor(rate, book.currency),
    shownMinor: ofHour(rate),
    costMinor: ofHour(cost),
    ...taxed(tax),
    because: [
      ...fact.because,
      {
        fact: `${minutes} min at ${moneyText(rate, book.currency, book.locale)} an hour`,
        from: `labour rate "${fact.grade}"`,
      },
      taxReason(tax),
    ],
  };
}

/** Which of several works a line is of, where it is of one. */
export const ofWork = ({ work }: { readonly work?: string | undefined }) =>
  work === undefined ? {} : { work };

/** A fixed price, a line by hand or work done outside the shop: so many of it, at its price and cost each. */
export function fixedLine(
  fact: FixedFact,
  kind: "fixed" | "outside",
  book: PriceRules,
  from = kind === "fixed" ? "fixed price of the package" : "work bought outside",
): ShownLine {
  const priceMinor = within(`price of "${fact.name}"`, fact.priceMinor, 0, MOST);
  const costMinor = within(`cost of "${fact.name}"`, fact.costMinor, 0, MOST);
  const quantityMilli = within(`quantity of "${fact.name}"`, fact.quantityMilli ?? MILLI, 0, MOST);
  const tax = taxOf(book, kind, fact.taxMark);
  const unitPriceE4 = e4OfMinor(priceMinor, book.currency);
  const text = moneyText(priceMinor, book.currency, book.locale);
  return {
    key: fact.key,
    ...ofWork(fact),
    kind,
    name: fact.name,
    quantityMilli,
    unit: fact.unit ?? "each",
    unitPriceE4,
    shownMinor: amountOf(unitPriceE4, quantityMilli, book.currency),
    costMinor: amountOf(e4OfMinor(costMinor, book.currency), quantityMilli, book.currency),
    ...taxed(tax),
    because: [
      { fact: quantityMilli === MILLI ? text : `${quantityMilli / MILLI} × ${text}`, from },
      taxReason(tax, fact.taxMark),
    ],
  };
}
