import { DateText } from "@/app/_ui/DateText";
import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import type { PartView } from "@/lib/data/stock/parts";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { CONVENTION_WORDS, TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { amountText } from "../amount";

const sizeText = (part: PartView, locale: string) =>
  part.sizeMilli === null
    ? null
    : `${figureText(part.sizeMilli / 1000, locale)}${part.convention === "bore" || part.convention === "flow" ? `, ${CONVENTION_WORDS[part.convention]}` : ""}`;

/** What is known of a part besides how much there is. */
export function PartFacts({ part, locale, currency }: { part: PartView; locale: string; currency: string }) {
  const text = (milli: number) => amountText(milli, part.unit, locale);
  const price = (e4: number | null) =>
    e4 === null ? "not known" : `${unitPriceText(e4, currency, locale)} ${currency}`;
  const facts = [
    { name: "Kind", value: part.kind },
    { name: "Family", value: part.family },
    { name: "Size", value: sizeText(part, locale), mono: true },
    { name: "Usual bin", value: part.bin, mono: true },
    { name: "Supplier", value: [part.supplier, part.supplierCode].filter(Boolean).join(", ") },
    { name: "Days to arrive", value: part.leadDays, mono: true },
    { name: "Order point", value: part.pointMilli ? text(part.pointMilli) : null, mono: true },
    {
      name: "Price",
      value: part.priceE4 === null ? "cost and markup" : price(part.priceE4),
      mono: part.priceE4 !== null,
    },
    { name: "Tax", value: part.taxMark === "" ? null : TAX_MARK_WORDS[part.taxMark] },
    {
      name: "Price good until",
      value: part.priceUntil && <DateText date={part.priceUntil} locale={locale} />,
    },
    ...(part.cost
      ? [
          { name: "List cost", value: price(part.cost.costE4), mono: true },
          { name: "Average cost", value: price(part.cost.averageE4), mono: true },
        ]
      : []),
  ].filter((row) => row.value !== null && row.value !== "");
  return <Facts rows={facts} />;
}
