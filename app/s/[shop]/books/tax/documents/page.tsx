import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { taxTermsOf } from "@/lib/data/shop/taxTerms";
import type { ShownEntry } from "@/lib/data/taxReport/byMoney";
import { cellEntries } from "@/lib/data/taxReport/summary";
import { dayIn } from "@/lib/domain/schedule/days";
import { taxNameOf } from "@/lib/domain/tax/rates";
import { open } from "@/lib/gate/open";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { PAYMENT_WORDS } from "@/lib/schemas/paymentWords";
import { TaxCellSchema, taxStretch } from "@/lib/schemas/tax";
import { taxHref } from "../address";

const PARTS = { main: "", deposits: "deposits", off: "written off" } as const;

/** The documents and money behind one cell of the tax summary. */
export default async function TaxDocumentsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone, taxRegime, currency } = shop.settings;
  const raw = await searchParams;
  const terms = await taxTermsOf(shop.read, taxRegime);
  const { months: _, ...query } = taxStretch(raw, terms, dayIn(zone, shop.now));
  const { part, category, rate, page } = TaxCellSchema.parse(raw);
  const asked = { ...query, depositsReceived: terms.depositsReceived };
  const { rows, more, sum } = await cellEntries(shop.read, asked, { part, category, rateBp: rate, page });
  const cell = { ...query, part, category, rate };
  const figure = (name: string, minor: number) => (
    <td data-name={name} data-align="end" data-figure="">
      <Money minor={minor} currency={currency} locale={locale} />
    </td>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title={[taxNameOf(taxRegime, category, rate), PARTS[part]].filter(Boolean).join(", ")}
        sub={
          <>
            <DateText date={query.from} locale={locale} /> to <DateText date={query.to} locale={locale} />,{" "}
            {query.basis}
          </>
        }
        actions={<LinkButton href={taxHref(slug, query)}>All rates</LinkButton>}
      />
      {rows.length === 0 ? (
        <Empty title="Nothing counts here." text="Go back to all rates." />
      ) : (
        <table className="ledger">
          <caption className="sr-only">What this figure stands on</caption>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Day</th>
              <th scope="col">Customer</th>
              {["Net", "Tax", "Gross"].map((name) => (
                <th key={name} scope="col" data-align="end">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.ref} ${row.job?.id ?? 0}`}>
                <td>
                  <Link href={`/s/${slug}/${placeOf(row)}`} className="row-link">
                    {nameOf(row)}
                  </Link>
                </td>
                <td data-name="Day">
                  <DateText date={row.on} locale={locale} />
                </td>
                <td data-name="Customer">{row.customer}</td>
                {figure("Net", row.netMinor)}
                {figure("Tax", row.taxMinor)}
                {figure("Gross", row.netMinor + row.taxMinor)}
              </tr>
            ))}
            <tr className="border-ink border-t-2 font-bold">
              <td>All {sum.count}</td>
              <td aria-hidden="true" />
              <td aria-hidden="true" />
              {figure("Net", sum.netMinor)}
              {figure("Tax", sum.taxMinor)}
              {figure("Gross", sum.netMinor + sum.taxMinor)}
            </tr>
          </tbody>
        </table>
      )}
      <nav aria-label="Pages" className="mt-3 flex gap-2.5 print:hidden">
        {page > 1 && (
          <LinkButton href={taxHref(slug, { ...cell, page: page - 1 }, "/documents")}>Before</LinkButton>
        )}
        {more && (
          <LinkButton href={taxHref(slug, { ...cell, page: page + 1 }, "/documents")}>More</LinkButton>
        )}
      </nav>
    </>
  );
}

const placeOf = ({ document, job }: ShownEntry): string =>
  document ? `invoices/${document.id}` : `invoices/new?job=${job?.id ?? ""}`;

function nameOf({ document, job, moved }: ShownEntry): string {
  const of = document
    ? `${KIND_NAMES[document.kind as keyof typeof KIND_NAMES]} ${document.written}`
    : `Job ${job?.number ?? ""}`;
  return moved ? `${of}, ${PAYMENT_WORDS[moved as keyof typeof PAYMENT_WORDS]}` : of;
}
