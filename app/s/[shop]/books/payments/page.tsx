import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { paymentSums, registeredPayments } from "@/lib/data/ledger/registers";
import { open } from "@/lib/gate/open";
import { ledgerRange, RegisterQuery } from "@/lib/schemas/ledger";
import { PAYMENT_WORDS } from "@/lib/schemas/paymentWords";
import { RangeForm } from "../RangeForm";

const COLUMNS: readonly TableColumn[] = [
  { key: "day", header: "Day", kind: "date" },
  { key: "what", header: "What" },
  { key: "method", header: "By" },
  { key: "of", header: "Of" },
  { key: "customer", header: "Customer" },
  { key: "moved", header: "Moved", kind: "money" },
  { key: "settles", header: "Settles", kind: "money" },
];

/** Every row of money and write-off in a range, as it was recorded. */
export default async function Payments({
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
  const { after } = RegisterQuery.parse(query);
  const [{ rows, next }, sums] = await Promise.all([
    registeredPayments(shop, range, after ?? 0),
    paymentSums(shop, range),
  ]);
  const base = `/s/${slug}/books/payments`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Payments register"
        actions={
          <LinkButton href={`/api/s/${slug}/books/payments?from=${range.from}&to=${range.to}`} download>
            As CSV
          </LinkButton>
        }
      />
      <RangeForm action={base} range={range} />
      {sums.length > 0 && (
        <dl className="mb-5 flex flex-wrap gap-x-10 gap-y-2">
          {sums.map(({ method, minor }) => (
            <div key={method}>
              <dt className="text-[14px] text-soft">{method}</dt>
              <dd>
                <Money minor={minor} currency={currency} locale={locale} code />
              </dd>
            </div>
          ))}
        </dl>
      )}
      <DataTable
        caption="Payments as recorded"
        columns={COLUMNS}
        locale={locale}
        path={base}
        query={{ from: range.from, to: range.to, after: after?.toString() }}
        rows={rows.map((row) => ({
          id: String(row.id),
          href:
            row.invoiceId !== null ? `/s/${slug}/invoices/${row.invoiceId}` : `/s/${slug}/jobs/${row.jobId}`,
          day: row.paidOn,
          what: row.reference
            ? { text: PAYMENT_WORDS[row.kind], sub: row.reference }
            : PAYMENT_WORDS[row.kind],
          method: row.method,
          of: row.document || (row.job ? `job ${row.job}` : "counter"),
          customer: row.customer || "walk-in",
          moved: { minor: row.movedMinor, currency },
          settles: { minor: row.settlesMinor, currency },
        }))}
        next={next?.toString() ?? null}
        previous={after ? "" : null}
        empty={<Empty title="No money moved in these days." text="Choose other days." />}
      />
    </>
  );
}
