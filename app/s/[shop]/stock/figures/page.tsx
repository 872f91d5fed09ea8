import NextForm from "next/form";
import type { ReactNode } from "react";
import { DateField } from "@/app/_ui/DateField";
import { dateText, figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { stockFigures } from "@/lib/data/stock/figures";
import type { Reason } from "@/lib/domain/reason";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { StockMenu } from "../StockMenu";
import { DeadStock } from "./DeadStock";
import { ValueChart } from "./ValueChart";

export default async function FiguresPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const { day: asked } = await searchParams;
  const shop = await open("stock.read", slug);
  const { locale, zone, currency } = shop.settings;
  const today = dayOf(shop.now.getTime(), zone);
  const real =
    typeof asked === "string" &&
    /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d)$|^\d{4}-(0[13-9]|1[0-2])-30$|^\d{4}-(0[13578]|1[02])-31$/.test(
      asked,
    );
  const day = real && asked <= today ? asked : today;
  const figures = await stockFigures(shop, day);
  const withCost = shop.can("margin.read");
  const major = (e4: number) => `${figureText(Math.round(e4 / 10_000), locale)} ${currency}`;
  const { counted, agreed } = figures.accuracy;
  const valueBecause: Reason[] = [
    {
      fact: `every move dated up to ${dateText(day, locale)}`,
      from: "the ledger",
      effect: major(figures.valueE4),
    },
    ...(figures.withoutCost > 0
      ? [
          {
            fact: `${figures.withoutCost} parts came in without a cost`,
            from: "their moves",
            effect: "counted as 0",
          },
        ]
      : []),
  ];
  return (
    <>
      <PageHead of={shop.name} title="Stock figures" sub={dateText(day, locale)} />
      <StockMenu shop={slug} here="/figures" />
      <NextForm action={`/s/${slug}/stock/figures`} className="mb-2 flex max-w-md items-end gap-2.5">
        <DateField name="day" label="At the end of" initial={day} max={today} className="flex-1" />
        <div className="mb-4">
          <SubmitButton tone="second">Show</SubmitButton>
        </div>
      </NextForm>
      <dl className="mb-6 flex flex-wrap gap-x-12 gap-y-3">
        {withCost && (
          <>
            <Figure name="stock value">
              <Opens name="Stock value" because={valueBecause} firmness="firm">
                {major(figures.valueE4)}
              </Opens>
            </Figure>
            <Figure name="turns a year">
              <Opens
                name="Turns a year"
                because={[
                  {
                    fact: `used in ${figures.days} days`,
                    from: "moves of use less returns, at cost",
                    effect: major(figures.usedE4),
                  },
                  {
                    fact: "stock on average",
                    from: "the month ends and the day asked for",
                    effect: major(figures.averageE4),
                  },
                ]}
                firmness="firm"
              >
                {figures.turns === null ? "–" : figureText(figures.turns, locale, 1)}
              </Opens>
            </Figure>
          </>
        )}
        <Figure name="counts that agreed">
          <Opens
            name="Counts that agreed"
            because={[
              {
                fact: `${counted} parts counted in a year`,
                from: "approved counts",
                effect: `${agreed} agreed`,
              },
            ]}
            firmness="firm"
          >
            {counted === 0 ? "–" : `${figureText((agreed / counted) * 100, locale, 0)} %`}
          </Opens>
        </Figure>
      </dl>
      {withCost && (
        <Section title="Value at each month's end">
          <ValueChart months={figures.monthEnds} locale={locale} currency={currency} />
        </Section>
      )}
      {figures.withoutCost > 0 && withCost && (
        <Note>
          {figures.withoutCost} parts have no cost on some of their moves; they stand here for less than they
          are worth.
        </Note>
      )}
      <DeadStock
        shop={slug}
        figures={figures}
        locale={locale}
        zone={zone}
        currency={currency}
        withCost={withCost}
      />
    </>
  );
}

function Figure({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div>
      <dt className="text-[13px] text-soft">{name}</dt>
      <dd className="font-mono text-[22px]">{children}</dd>
    </div>
  );
}
