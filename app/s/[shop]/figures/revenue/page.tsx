import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { rangesFor } from "@/lib/data/figures/ranges";
import { revenueIn } from "@/lib/data/figures/revenue";
import { open } from "@/lib/gate/open";
import { FiguresQuery, SHARE_WORDS } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";
import { MonthColumns } from "../MonthColumns";
import { figuresQuery } from "../query";

/** Revenue without tax by kind and month, against the range before; each figure opens to its documents. */
export default async function RevenuePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("figures.read", slug);
  const asked = FiguresQuery.parse(await searchParams);
  const ranges = await rangesFor(shop, asked);
  const [now, before] = await Promise.all([revenueIn(shop, ranges.range), revenueIn(shop, ranges.before)]);
  const { currency, locale } = shop.settings;
  const behind = (days: { from: string; to: string }, kind?: string) =>
    `/s/${slug}/figures/revenue/documents${figuresQuery({ range: "own", from: days.from, to: days.to, kind })}`;
  const kinds = now.kinds
    .map((one, at) => ({ ...one, beforeMinor: before.kinds[at]?.netMinor ?? 0 }))
    .filter((one) => one.netMinor !== 0 || one.beforeMinor !== 0);
  const text = (minor: number) => moneyText(minor, currency, locale);
  return (
    <>
      <FiguresHead shop={shop} title="Revenue" room="revenue" asked={asked} ranges={ranges} csv="revenue" />
      {now.netMinor === 0 && before.netMinor === 0 ? (
        <Empty title="Nothing was issued in this range." text="Choose another range, or issue an invoice." />
      ) : (
        <>
          <Section title="By kind, without tax">
            <DataTable
              caption="Revenue by kind"
              locale={locale}
              columns={[
                { key: "kind", header: "Kind" },
                { key: "now", header: "This range", kind: "money" },
                { key: "before", header: "The range before", kind: "money" },
                { key: "change", header: "Change", kind: "money" },
              ]}
              rows={[...kinds, { kind: undefined, netMinor: now.netMinor, beforeMinor: before.netMinor }].map(
                ({ kind, netMinor, beforeMinor }) => ({
                  id: kind ?? "all",
                  href: behind(ranges.range, kind),
                  kind: kind ? SHARE_WORDS[kind] : "All revenue",
                  now: { minor: netMinor, currency },
                  before: { minor: beforeMinor, currency },
                  change: { minor: netMinor - beforeMinor, currency },
                }),
              )}
            />
          </Section>
          <Section title="By month">
            <MonthColumns
              title="Revenue by month"
              description="One column a month: the net of what was issued in it, credit notes taken off."
              locale={locale}
              months={now.months.map(({ month, netMinor }) => ({ month, value: netMinor }))}
              say={(value) => moneyText(Math.round(value), currency, locale).replace(/[.,]\d\d$/, "")}
              table={{
                head: ["Month", "Net", "Labour, hours"],
                rows: now.months.map(({ month, netMinor, minutes }) => [
                  month,
                  text(netMinor),
                  (minutes / 60).toFixed(1),
                ]),
              }}
            />
          </Section>
        </>
      )}
      <p className="max-w-prose text-[15px] text-soft">
        Revenue: the net, without tax, of invoices and receipts issued in the range, less the credit notes
        issued in it. What was written off or not paid is not taken off. Labour is what is charged by the
        hour; a work at a fixed price, and an amount that a credit note takes off, stand under fixed prices.
      </p>
    </>
  );
}
