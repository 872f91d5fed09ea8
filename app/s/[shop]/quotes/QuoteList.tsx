import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import type { ToCall } from "@/lib/data/quotes/call";
import type { QuoteLine } from "@/lib/data/quotes/list";
import type { OpenShop } from "@/lib/gate/open";
import { type ListQuotes, QUOTE_STATES } from "@/lib/schemas/quotes";
import { QUOTE_WORDS } from "@/lib/schemas/quoteWords";
import { CallList } from "./CallList";

const COLUMNS: readonly TableColumn[] = [
  { key: "number", header: "Quote", kind: "figure", align: "start", sortable: true },
  { key: "customer", header: "For", sortable: true },
  { key: "title", header: "Package" },
  { key: "state", header: "State", kind: "state" },
  { key: "sent", header: "Age", kind: "figure", unit: "days", sortable: true },
  { key: "valid", header: "Valid until", kind: "date", sortable: true },
  { key: "value", header: "Value", kind: "money", sortable: true },
];

const FILTERS = [
  {
    name: "state",
    label: "State",
    options: QUOTE_STATES.map((s) => ({ value: s, label: QUOTE_WORDS[s].word })),
  },
  {
    name: "kind",
    label: "Kind",
    options: [
      { value: "first", label: "Own quote" },
      { value: "variation", label: "Extra work" },
    ],
  },
];

interface Props {
  shop: OpenShop;
  query: ListQuotes;
  rows: readonly QuoteLine[];
  next: number | null;
  calls: readonly ToCall[];
}

/** Draws the list of quotes, with whom to call above it; reads nothing. */
export function QuoteList({ shop, query, rows, next, calls }: Props) {
  const path = `/s/${shop.slug}/quotes`;
  const narrowed = Boolean(query.state || query.q || query.kind);
  const { currency, locale, zone } = shop.settings;
  const start = shop.can("quote.write") && (
    <LinkButton href={`${path}/new`} tone="main">
      New quote
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Quotes"
        actions={
          <>
            {shop.can("shop.write") && <LinkButton href={`${path}/price-book`}>Price book</LinkButton>}
            {start}
          </>
        }
      />
      <CallList slug={shop.slug} calls={calls} currency={currency} locale={locale} />
      <DataTable
        caption="Quotes"
        columns={COLUMNS.map((one) => (one.kind === "money" ? { ...one, currency } : one))}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `${path}/${row.id}`,
          number: String(row.number),
          customer: { text: row.customer, sub: row.bike },
          title: titleOf(row),
          state: QUOTE_WORDS[row.state],
          sent: row.ageDays,
          valid: row.validUntil,
          value: row.grossMinor,
        }))}
        locale={locale}
        zone={zone}
        path={path}
        query={{
          state: query.state,
          kind: query.kind,
          q: query.q,
          sort: query.sort ?? "-number",
          after: query.after?.toString(),
        }}
        search="Number, customer, bike or plate"
        filters={FILTERS}
        next={next === null ? null : String(next)}
        previous={query.after ? "" : null}
        empty={
          <Empty
            title={narrowed ? "No such quote." : "No quote yet."}
            text={
              narrowed
                ? "Try fewer words, or choose “all” above."
                : "A quote starts from a bike and a package."
            }
            action={start}
          />
        }
      />
    </>
  );
}

/** A quote's title, with what it is besides where it is not the first one. */
function titleOf(row: { title: string; variation: boolean; revisionNumber: number }) {
  const sub = [
    row.variation ? "variation" : "",
    row.revisionNumber > 1 ? `revision ${row.revisionNumber}` : "",
  ]
    .filter(Boolean)
    .join(", ");
  return sub ? { text: row.title, sub } : row.title;
}
