import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { rangesFor } from "@/lib/data/figures/ranges";
import { stockIn } from "@/lib/data/figures/stockFigures";
import { open } from "@/lib/gate/open";
import { FiguresQuery } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";
import { figuresQuery } from "../query";

const SHOWN = 50;
const turnText = (turn: number | null) => (turn === null ? "–" : `${turn.toFixed(1)} a year`);

/** Stock: what it is worth, how often it turns, and what has lain for a year; against the range before. */
export default async function StockFigures({
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
  const now = await stockIn(shop, ranges.range, ranges.zone);
  const before = await stockIn(shop, ranges.before, ranges.zone);
  const { currency, locale } = shop.settings;
  const money = (minor: number) => ({ minor, currency });
  const text = (minor: number) => moneyText(minor, currency, locale, true);
  const first = now.rows.findIndex((row) => row.id > (asked.after ?? 0));
  const rows = first < 0 ? [] : now.rows.slice(first, first + SHOWN);
  const more = first >= 0 && now.rows.length > first + SHOWN ? rows.at(-1)?.id : undefined;
  return (
    <>
      <FiguresHead shop={shop} title="Stock" room="stock" asked={asked} ranges={ranges} csv="stock" />
      <Section title="Value and turn">
        <Facts
          rows={[
            { name: "Worth now", value: text(now.valueMinor), mono: true },
            { name: "Of it dead: nothing moved for twelve months", value: text(now.deadMinor), mono: true },
            { name: "Used in this range", value: text(now.usedMinor), mono: true },
            { name: "Used in the range before", value: text(before.usedMinor), mono: true },
            {
              name: "Turn in this range, and in the one before",
              value: `${turnText(now.turn)}, ${turnText(before.turn)}`,
              mono: true,
            },
          ]}
        />
      </Section>
      {now.rows.length === 0 ? (
        <Empty
          title="Nothing is in stock."
          text="Parts that are on hand, or were used in the range, stand here."
        />
      ) : (
        <Section title="The parts behind it">
          <DataTable
            caption="Parts behind the figures of stock"
            locale={locale}
            columns={[
              { key: "part", header: "Part" },
              { key: "value", header: "Worth", kind: "money" },
              { key: "used", header: "Used in the range", kind: "money" },
              { key: "dead", header: "Dead" },
            ]}
            rows={rows.map((row) => ({
              id: String(row.id),
              href: `/s/${slug}/stock/${row.id}`,
              part: { text: row.code, sub: row.name },
              value: money(row.valueMinor),
              used: money(row.usedMinor),
              dead: row.dead ? "dead" : "",
            }))}
          />
          {more && (
            <LinkButton
              href={`/s/${slug}/figures/stock${figuresQuery({ ...asked, after: more })}`}
              className="mt-4"
            >
              More parts
            </LinkButton>
          )}
          <Facts
            rows={[
              { name: `All ${now.rows.length} parts: worth`, value: text(now.valueMinor), mono: true },
              { name: "Used in the range", value: text(now.usedMinor), mono: true },
            ]}
          />
        </Section>
      )}
      <p className="max-w-prose text-[15px] text-soft">
        Worth: what is on hand at its average cost today. Used: what went to jobs and over the counter in the
        range, less what came back, at the same cost. Turn: used in the range, taken to a year, against what
        is there now. Dead: on hand, and for twelve months nothing of it came in or went out.
      </p>
    </>
  );
}
