import NextForm from "next/form";
import { DataTable } from "@/app/_ui/DataTable";
import { DateField } from "@/app/_ui/DateField";
import { Empty } from "@/app/_ui/Empty";
import { dateText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { stockWorth } from "@/lib/data/ledger/registers";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { OnDayQuery } from "@/lib/schemas/ledger";
import { quantityText } from "@/lib/schemas/quantity";

const COLUMNS: readonly TableColumn[] = [
  { key: "part", header: "Part" },
  { key: "quantity", header: "Quantity", align: "end" },
  { key: "value", header: "Value", kind: "money" },
];

/** The dearest of them stand on the page; the file has all. Judgement. */
const SHOWN = 100;

/** What lay in stock at the end of a day, at cost. */
export default async function StockValue({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone, currency } = shop.settings;
  const today = dayIn(zone, shop.now);
  const { day: asked } = OnDayQuery.parse(await searchParams);
  const day = asked && asked <= today ? asked : today;
  const parts = await stockWorth(shop, day);
  const costless = parts.filter((part) => part.withoutCost).length;
  const shown = [...parts].sort((a, b) => b.valueMinor - a.valueMinor).slice(0, SHOWN);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Stock value"
        sub={dateText(day, locale)}
        actions={
          <LinkButton href={`/api/s/${slug}/books/stock?to=${day}`} download>
            All parts as CSV
          </LinkButton>
        }
      />
      <NextForm
        action={`/s/${slug}/books/stock`}
        className="mb-2 flex max-w-md items-end gap-2.5"
        aria-label="Day"
      >
        <DateField name="day" label="At the end of" initial={day} max={today} className="flex-1" />
        <div className="mb-4">
          <SubmitButton tone="second">Show</SubmitButton>
        </div>
      </NextForm>
      <p className="mb-4 max-w-prose">
        {parts.length} parts, worth{" "}
        <Money
          minor={parts.reduce((sum, part) => sum + part.valueMinor, 0)}
          currency={currency}
          locale={locale}
          code
        />{" "}
        at cost: every move until then at what it cost.
        {costless > 0 && ` Of ${costless} some came in without a cost and counts as nothing.`}
        {parts.length > SHOWN && ` The ${SHOWN} dearest stand here.`}
      </p>
      <DataTable
        caption="Parts in stock"
        columns={COLUMNS}
        locale={locale}
        rows={shown.map((part) => ({
          id: String(part.partId),
          href: `/s/${slug}/stock/${part.partId}`,
          part: { text: part.code, sub: part.name },
          quantity: quantityText(part.quantityMilli, part.unit),
          value: { minor: part.valueMinor, currency },
        }))}
        empty={<Empty title="Nothing lay in stock." text="Choose another day." />}
      />
    </>
  );
}
