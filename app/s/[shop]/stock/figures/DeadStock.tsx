import { DataTable } from "@/app/_ui/DataTable";
import { figureText, instantText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import type { StockFigures } from "@/lib/data/stock/figures";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { amountText } from "../amount";

export interface DeadStockProps {
  shop: string;
  figures: Pick<StockFigures, "dead" | "valueE4">;
  locale: string;
  zone: string;
  currency: string;
  withCost: boolean;
}

/** So many dead parts are shown, those that bind the most money. */
const DEAD_SHOWN = 25;

/** What lay a year without a use, what it binds in all, and where most of that lies. */
export function DeadStock({ shop, figures, locale, zone, currency, withCost }: DeadStockProps) {
  const major = (e4: number) => `${figureText(Math.round(e4 / 10_000), locale)} ${currency}`;
  return (
    <Section title="Not used for a year">
      {figures.dead.length > 0 && (
        <p className="mb-2 max-w-prose text-soft">
          {figures.dead.length === 1 ? "One part" : `${figures.dead.length} parts`}
          {withCost &&
            `, worth ${major(figures.dead.reduce((sum, part) => sum + part.valueE4, 0))} of the ${major(figures.valueE4)}`}
          {figures.dead.length > DEAD_SHOWN &&
            `; the ${DEAD_SHOWN} that ${withCost ? "bind the most money" : "come first"} are shown`}
          .
        </p>
      )}
      <DataTable
        caption="Parts on hand that were not used for a year"
        columns={[
          { key: "part", header: "Part" },
          { key: "bin", header: "Bin" },
          { key: "onHand", header: "On hand", kind: "figure" },
          { key: "last", header: "Last used", kind: "text" },
          ...(withCost ? [{ key: "value", header: `Value, ${currency}`, kind: "figure" as const }] : []),
        ]}
        rows={figures.dead.slice(0, DEAD_SHOWN).map((part) => ({
          id: String(part.id),
          href: `/s/${shop}/stock/${part.id}`,
          part: { text: part.code, sub: part.name },
          bin: part.bin,
          onHand: amountText(part.onHandMilli, part.unit, locale),
          last:
            part.lastUsedAt === null
              ? "never"
              : instantText(new Date(part.lastUsedAt).toISOString(), locale, zone, "date"),
          ...(withCost
            ? { value: unitPriceText(Math.round(part.valueE4 / 100) * 100, currency, locale) }
            : {}),
        }))}
        locale={locale}
        zone={zone}
        empty={<p className="text-soft">Every part that lay here for a year was used in it.</p>}
      />
    </Section>
  );
}
