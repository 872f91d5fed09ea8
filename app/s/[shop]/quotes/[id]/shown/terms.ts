import { moneyText } from "@/app/_ui/moneyText";
import type { DraftView } from "@/lib/data/quotes/draftView";
import type { QuotePage } from "@/lib/data/quotes/get";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import type { HandLine, HandPart } from "@/lib/domain/quoting/terms";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { quantityText } from "@/lib/schemas/quantity";

export interface HandRow {
  readonly key: string;
  readonly name: string;
  readonly about: string;
  readonly price: string;
}

export interface TermsShown {
  readonly title: string;
  readonly validUntil: string;
  readonly byHand: readonly HandRow[];
  readonly discount: {
    readonly how: "none" | "percent" | "amount";
    readonly amount: string;
    readonly why: string;
  };
  readonly deposit: {
    readonly how: "shop" | "none" | "percent" | "amount";
    readonly amount: string;
    readonly shopBp: number;
  };
  /** The lines that a discount may be given on, each with its price. */
  readonly lines: readonly { readonly key: string; readonly label: string }[];
  readonly extras: DraftView["extras"];
}

/** What is agreed on a draft beyond its works, as it is shown and as its forms begin. */
export function termsShown(quote: QuotePage, draft: DraftView): TermsShown {
  const { agreed, price, parts, extras } = draft;
  const { currency, locale } = quote.terms;
  const money = (minor: number) => moneyText(minor, currency, locale);
  const { discount, deposit } = agreed;
  return {
    title: quote.title,
    validUntil: quote.validUntil,
    byHand: [
      ...agreed.lines.map((line) => lineRow(line, money)),
      ...handPartsOf(agreed).map((hand) => partRow(hand, parts, money)),
    ],
    discount: {
      how: discount?.kind ?? "none",
      amount: discount?.kind === "percent" ? String(discount.bp / 100) : "",
      why: discount?.why ?? "",
    },
    deposit: {
      how:
        deposit === null
          ? "shop"
          : "amountMinor" in deposit
            ? "amount"
            : deposit.percentBp === 0
              ? "none"
              : "percent",
      amount:
        deposit && "percentBp" in deposit && deposit.percentBp > 0 ? String(deposit.percentBp / 100) : "",
      shopBp: quote.terms.depositBp,
    },
    lines: price.lines
      .filter((l) => l.kind !== "discount" && l.kind !== "sundries")
      .map((l) => ({ key: l.key, label: `${lineName(l, quote.works)}, ${money(l.shownMinor)}` })),
    extras,
  };
}

function lineName({ name, work }: DraftView["price"]["lines"][number], works: QuotePage["works"]): string {
  const of = work === undefined ? undefined : works.find((one) => one.key === work)?.name;
  return of === undefined || of === name ? name : `${of}: ${name}`;
}

const taxed = (mark: keyof typeof TAX_MARK_WORDS | undefined) => (mark ? [TAX_MARK_WORDS[mark]] : []);

function lineRow(
  { key, kind, name, priceMinor, quantityMilli, unit = "each", taxMark }: HandLine,
  money: (minor: number) => string,
): HandRow {
  const about = [
    kind === "outside" ? "work bought outside" : "written by hand",
    ...(quantityMilli === undefined ? [] : [`${quantityText(quantityMilli, unit)} ×`]),
    ...taxed(taxMark),
  ];
  return { key, name, about: about.join(", "), price: money(priceMinor) };
}

function partRow(
  { key, code, name, quantityMilli, priceMinor, taxMark }: HandPart,
  parts: DraftView["parts"],
  money: (minor: number) => string,
): HandRow {
  const part = parts.find((one) => one.byHand === key);
  const about = [
    `part ${code}`,
    `${quantityText(quantityMilli, part?.unit ?? "each")} ×`,
    ...(part ? [part.note] : []),
    ...taxed(taxMark),
    ...(priceMinor === undefined ? ["at its own price"] : []),
  ];
  return {
    key,
    name: name || part?.name || code,
    about: about.join(", "),
    price: priceMinor === undefined ? "" : money(priceMinor),
  };
}
