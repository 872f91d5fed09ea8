import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { rangesFor } from "@/lib/data/figures/ranges";
import { revenueDocuments } from "@/lib/data/figures/revenue";
import { open } from "@/lib/gate/open";
import { FiguresQuery, SHARE_WORDS } from "@/lib/schemas/figures";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { FiguresHead } from "../../FiguresHead";
import { figuresQuery } from "../../query";

/** The documents behind a figure of revenue, a page at a time, with what all of them come to. */
export default async function RevenueDocuments({
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
  const { rows, next, netMinor } = await revenueDocuments(
    shop,
    { range: ranges.range, kind: asked.kind },
    asked.after,
  );
  const { currency, locale } = shop.settings;
  const what = asked.kind ? SHARE_WORDS[asked.kind] : "All revenue";
  return (
    <>
      <FiguresHead shop={shop} title={`${what}: documents`} room="revenue" asked={asked} ranges={ranges} />
      {rows.length === 0 ? (
        <Empty title="No document stands behind this." text="Choose another range." />
      ) : (
        <>
          <DataTable
            caption="Documents behind this figure"
            locale={locale}
            columns={[
              { key: "number", header: "Document" },
              { key: "day", header: "Issued", kind: "date" },
              { key: "customer", header: "Customer" },
              { key: "net", header: "Of it here", kind: "money" },
            ]}
            rows={rows.map((row) => ({
              id: String(row.id),
              href: row.saleId ? `/s/${slug}/counter/${row.saleId}` : `/s/${slug}/invoices/${row.id}`,
              number: `${KIND_NAMES[row.kind]} ${row.written}`,
              day: row.issuedOn,
              customer: row.customer,
              net: { minor: row.netMinor, currency },
            }))}
          />
          {next && (
            <LinkButton
              href={`/s/${slug}/figures/revenue/documents${figuresQuery({ ...asked, after: next })}`}
              className="mt-4"
            >
              More documents
            </LinkButton>
          )}
        </>
      )}
      <Facts
        rows={[
          {
            name: "All documents of the range",
            value: <Money minor={netMinor} currency={currency} locale={locale} code />,
            strong: true,
          },
        ]}
      />
    </>
  );
}
