import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { documentSeries, documentSums, registeredDocuments } from "@/lib/data/ledger/registers";
import { open } from "@/lib/gate/open";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { ledgerRange, RegisterQuery } from "@/lib/schemas/ledger";
import { RangeForm } from "../RangeForm";

const COLUMNS: readonly TableColumn[] = [
  { key: "number", header: "Number" },
  { key: "issued", header: "Issued", kind: "date" },
  { key: "customer", header: "Customer" },
  { key: "net", header: "Net", kind: "money" },
  { key: "tax", header: "Tax", kind: "money" },
  { key: "gross", header: "Gross", kind: "money" },
];

/** Every number of every series, with what is found where they are checked for gaps. */
export default async function Documents({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const query = await searchParams;
  const shop = await open("books.read", slug);
  const { locale, zone, currency } = shop.settings;
  const range = ledgerRange(query, shop.now, zone);
  const { kind, after } = RegisterQuery.parse(query);
  const [series, { rows, next }, sums] = await Promise.all([
    documentSeries(shop),
    registeredDocuments(shop, kind, range, after ?? 0),
    documentSums(shop, range),
  ]);
  const base = `/s/${slug}/books/documents`;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Documents register"
        actions={
          <LinkButton href={`/api/s/${slug}/books/documents?from=${range.from}&to=${range.to}`} download>
            All series as CSV
          </LinkButton>
        }
      />
      <Section title="Series">
        <ul className="max-w-prose">
          {series.map((one) => (
            <li key={one.kind} className="border-hair border-b py-2">
              <strong>{KIND_NAMES[one.kind]}</strong>:{" "}
              {one.count === 0
                ? "none issued"
                : `${one.count} issued, from ${one.first} to ${one.last}; ${one.problems.length === 0 ? "no number is missing." : one.problems.join(" ")}`}
            </li>
          ))}
        </ul>
      </Section>
      <RangeForm action={base} range={range} kept={{ kind }} />
      <p className="mb-4">
        {sums.count} documents in these days: net {money(sums.netMinor)}, tax {money(sums.taxMinor)}, gross{" "}
        {money(sums.grossMinor)}; credit notes are taken off.
      </p>
      <DataTable
        caption="Documents by number"
        columns={COLUMNS}
        locale={locale}
        path={base}
        query={{ kind, from: range.from, to: range.to, after: after?.toString() }}
        filters={[
          {
            name: "kind",
            label: "Series",
            options: [
              { value: "invoice", label: "invoices" },
              { value: "creditNote", label: "credit notes" },
              { value: "receipt", label: "receipts" },
            ],
          },
        ]}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `/s/${slug}/invoices/${row.id}`,
          number: row.written,
          issued: row.issuedOn,
          customer: row.customer?.name ?? "walk-in",
          net: { minor: row.netMinor, currency },
          tax: { minor: row.taxMinor, currency },
          gross: { minor: row.grossMinor, currency },
        }))}
        next={next?.toString() ?? null}
        previous={after ? "" : null}
        empty={<Empty title="None was issued in these days." text="Choose other days or another series." />}
      />
    </>
  );
}
