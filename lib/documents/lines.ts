import type { PrintedLine } from "@/lib/domain/invoices/printed";
import { formatMoney } from "@/lib/domain/money/format";
import type { TaxSubtotal } from "@/lib/domain/pricing/facts";
import { nameIn } from "@/lib/domain/pricing/said";
import { byWork } from "@/lib/domain/quoting/byWork";
import type { PaperWords } from "@/lib/words/papers";
import { amountText, hourSign, quantityText, rateText, unitPriceText } from "./format";
import { figure, ledger, say } from "./look";
import type { Content } from "./pdf";

/** A priced document as far as its lines and sums are printed. */
export interface PricedPaper {
  readonly locale: string;
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly lines: readonly PrintedLine[];
  readonly taxes: readonly TaxSubtotal[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

const taxed = (paper: PricedPaper) => paper.taxes.some((tax) => tax.rateBp > 0);

/**
 * The priced lines, under the works they are of where there are several. The tax column stands wherever any tax is charged: it says
 * how far each line is taxed.
 */
export function priceLines(
  paper: PricedPaper,
  words: PaperWords,
  works: readonly { readonly key: string; readonly name: string }[] = [],
): Content {
  const { locale, currency, pricesIncludeTax } = paper;
  const withTax = taxed(paper);
  const amount = !withTax ? words.amount : pricesIncludeTax ? words.amountWith : words.amountWithout;
  const columns = [
    { head: words.what, width: "*" },
    { head: words.quantity, width: "auto", end: true },
    { head: words.unitPrice, width: "auto", end: true },
    ...(withTax ? [{ head: words.tax, width: "auto", end: true }] : []),
    { head: `${amount}, ${currency}`, width: "auto", end: true },
  ];
  const row = (line: PrintedLine): Content[] => [
    say(nameIn(line, words.said)),
    figure(quantityText(line.quantityMilli, line.unit, locale)),
    figure(
      `${unitPriceText(line.unitPriceE4, currency, locale)}${line.unit === "h" ? `\u00a0/${hourSign(locale)}` : ""}`,
    ),
    ...(withTax ? [figure(rateText(line.taxRateBp, locale))] : []),
    figure(amountText(line.shownMinor, currency, locale)),
  ];
  const head = (name: string): Content[] => [
    { ...(say(name, { bold: true }) as object), colSpan: columns.length } as unknown as Content,
    ...columns.slice(1).map(() => say("")),
  ];
  const groups = byWork(works, paper.lines).filter(({ lines }) => lines.length > 0);
  return ledger(
    columns,
    works.length === 0
      ? paper.lines.map(row)
      : groups.flatMap(({ work, lines }) => [head(work?.name ?? words.forAll), ...lines.map(row)]),
  );
}

export interface Sum {
  readonly name: string;
  readonly value: string;
  readonly strong?: boolean;
}

/** Total and taxes: added on top, or said to be inside, as the shop shows its prices. */
export function totalSums(paper: PricedPaper, words: PaperWords): Sum[] {
  const { locale, currency } = paper;
  const money = (minor: number) => formatMoney(minor, currency, locale);
  if (!taxed(paper)) return [{ name: words.total, value: money(paper.grossMinor), strong: true }];
  const perRate = paper.taxes.map((tax) => ({
    name: (paper.pricesIncludeTax ? words.inside : words.onNet)(tax.name, money(tax.taxableMinor)),
    value: money(tax.taxMinor),
  }));
  const total = { name: words.totalWith, value: money(paper.grossMinor), strong: true };
  return paper.pricesIncludeTax
    ? [total, ...perRate]
    : [{ name: words.net, value: money(paper.netMinor) }, ...perRate, total];
}
