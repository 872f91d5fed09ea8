import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { listQuotes } from "@/lib/data/quotes/list";
import { open } from "@/lib/gate/open";
import { ListQuotesSchema, QUOTE_STATES } from "@/lib/schemas/quotes";
import { QUOTE_WORDS } from "@/lib/schemas/quoteWords";

const COLUMNS: readonly TableColumn[] = [
  { key: "number", header: "Quote", kind: "figure", align: "start" },
  { key: "customer", header: "For" },
  { key: "title", header: "Package" },
  { key: "state", header: "State", kind: "state" },
  { key: "age", header: "Age", kind: "figure", unit: "days" },
  { key: "valid", header: "Valid until", kind: "date" },
  { key: "value", header: "Value", kind: "money" },
];

const FILTERS = [
  {
    name: "state",
    label: "State",
    options: QUOTE_STATES.map((s) => ({ value: s, label: QUOTE_WORDS[s].word })),
  },
];

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | undefined>>;
}

export default async function Quotes({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("quote.read", slug);
  const query = ListQuotesSchema.parse(await searchParams);
  const { rows, next } = await listQuotes(shop, query);
  const path = `/s/${slug}/quotes`;
  const { currency, locale, zone } = shop.settings;
  const start = shop.can("quote.write") && (
    <LinkButton href={`${path}/new`} tone="main">
      New quote
    </LinkButton>
  );
  return (
    <>
      <PageHead title="Quotes" actions={start} />
      <DataTable
        caption="Quotes"
        columns={COLUMNS}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `${path}/${row.id}`,
          number: String(row.number),
          customer: { text: row.customer, sub: row.bike },
          title: {
            text: row.title,
            sub: [
              row.variation ? "variation" : "",
              row.revisionNumber > 1 ? `revision ${row.revisionNumber}` : "",
            ]
              .filter(Boolean)
              .join(", "),
          },
          state: QUOTE_WORDS[row.state],
          age: row.ageDays,
          valid: row.validUntil,
          value: { minor: row.grossMinor, currency },
        }))}
        locale={locale}
        zone={zone}
        path={path}
        query={{ state: query.state }}
        filters={FILTERS}
        next={next === null ? null : String(next)}
        empty={
          <Empty
            title={query.state ? "No quote in this state." : "No quote yet."}
            text={query.state ? "Choose another state above." : "A quote starts from a bike and a package."}
            action={start}
          />
        }
      />
    </>
  );
}
