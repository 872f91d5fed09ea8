import { figureText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import type { QuotePage } from "@/lib/data/quotes/get";

export interface MarginShown {
  /** In per cent; null where there is none or it is not known, which `none` says. */
  readonly percent: number | null;
  readonly none: string;
  readonly about: string;
  readonly warnings: readonly string[];
  readonly below: readonly string[];
  /** Who allowed it; empty where nobody did, or had to. */
  readonly said: string;
  readonly allowed: boolean;
}

/** What is left of the price, as it is shown to those who may see it. */
export function marginShown(
  { terms, belowMargin: said }: QuotePage,
  { price, belowLeast, below }: NonNullable<QuotePage["draft"]>,
): MarginShown {
  const percent = (bp: number) => `${figureText(bp / 100, terms.locale)} %`;
  const allowed = below.every((one) => one.allowed);
  const about = [
    ...(price.costKnown ? [] : ["A cost is missing."]),
    ...(price.costKnown && price.marginBp === null
      ? [`Nothing is charged; it costs ${moneyText(price.costMinor, price.currency, terms.locale)}.`]
      : []),
    ...(price.costKnown && !belowLeast && terms.minimumMarginBp > 0
      ? [`Not below the shop's ${terms.minimumMarginBp / 100} %.`]
      : []),
  ];
  return {
    percent: price.marginBp === null ? null : price.marginBp / 100,
    none: price.costKnown ? "nothing" : "not known",
    about: about.join(" "),
    warnings: price.warnings,
    below: below
      .filter((one) => one.of !== "")
      .map(
        ({ of, marginBp }) =>
          `${of}: ${marginBp === null ? "nothing is charged" : percent(marginBp)}, below the shop's ${percent(terms.minimumMarginBp)}.`,
      ),
    said:
      below.length > 0 && said
        ? `${allowed ? "Allowed" : "Allowed at a better margin"} by ${said.by}: ${said.why}`
        : "",
    allowed,
  };
}
