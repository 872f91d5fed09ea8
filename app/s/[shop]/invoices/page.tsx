import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { type InvoiceLine, listInvoices, listUnpaid } from "@/lib/data/invoices/list";
import { open } from "@/lib/gate/open";
import { InvoiceQuery, STANDING_WORDS } from "@/lib/schemas/invoices";
import { standingText } from "./Standing";

const COLUMNS: readonly TableColumn[] = [
  { key: "number", header: "Number" },
  { key: "customer", header: "Customer" },
  { key: "job", header: "Job" },
  { key: "issued", header: "Issued", kind: "date" },
  { key: "due", header: "Due", kind: "date" },
  { key: "state", header: "State", kind: "state" },
  { key: "total", header: "Total", kind: "money" },
  { key: "left", header: "To be paid", kind: "money" },
];

const FILTER = {
  name: "state",
  label: "State",
  options: [
    { value: "unpaid", label: "to be paid" },
    { value: "late", label: "late" },
    { value: "draft", label: "draft" },
    { value: "closed", label: "paid" },
    { value: "credited", label: "credited" },
  ],
};

export default async function InvoicesPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("invoice.read", slug);
  const query = InvoiceQuery.parse(await searchParams);
  const [{ rows, next }, unpaid] = await Promise.all([listInvoices(shop, query), listUnpaid(shop)]);
  const { locale, zone, currency } = shop.settings;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  const base = `/s/${slug}/invoices`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Invoices"
        sub={
          unpaid.rows.length > 0 && (
            <>
              {money(unpaid.outstandingMinor)} to be paid
              {unpaid.more && ", and more"}
              {unpaid.late > 0 && <>, {money(unpaid.lateMinor)} of it late</>}
            </>
          )
        }
        actions={
          <>
            <LinkButton href={`${base}/owing`}>Who owes what</LinkButton>
            {shop.can("payment.write") && <LinkButton href={`/s/${slug}/invoices/bank`}>Bank</LinkButton>}
            {shop.can("followUp.write") && <LinkButton href={`/s/${slug}/follow-ups`}>Follow-ups</LinkButton>}
            {shop.can("export.run") && (
              <LinkButton href={`/api/s/${slug}/invoices/csv`} download>
                Export CSV
              </LinkButton>
            )}
          </>
        }
      />
      <DataTable
        caption="Invoices and credit notes"
        columns={COLUMNS}
        rows={rows.map((row) => rowOf(row, base, currency))}
        locale={locale}
        zone={zone}
        path={base}
        query={{ state: query.state, q: query.q, after: query.after?.toString() }}
        search="Number, customer, job or bike"
        filters={[FILTER]}
        next={next?.toString() ?? null}
        previous={query.after ? "" : null}
        empty={
          query.q || query.state ? (
            <Empty
              title="No invoice matches."
              text="Take a filter off, or try part of a name."
              action={<LinkButton href={base}>Show all</LinkButton>}
            />
          ) : (
            <Empty
              title="No invoices yet."
              text="An invoice is made from a job that is ready."
              action={<LinkButton href={`/s/${slug}/jobs?state=ready`}>Jobs that are ready</LinkButton>}
            />
          )
        }
      />
    </>
  );
}

function rowOf(row: InvoiceLine, base: string, currency: string) {
  const { shape, tone } = STANDING_WORDS[row.standing];
  return {
    id: String(row.id),
    href: `${base}/${row.id}`,
    number:
      row.number === null
        ? "draft"
        : row.kind === "receipt"
          ? { text: row.written, sub: "receipt" }
          : row.written,
    customer: row.customer?.name ?? "walk-in",
    job: row.job ? jobsText(row.job, row.furtherJobs) : "over the counter",
    issued: row.issuedOn,
    due: row.kind === "invoice" && row.job ? row.dueOn : null,
    state: { shape, tone, word: standingText(row.standing, row.lateDays) },
    total: { minor: row.grossMinor, currency },
    left: row.state === "issued" && row.leftMinor !== 0 ? { minor: row.leftMinor, currency } : null,
  };
}

/** The job that it charges, or all of them. */
const jobsText = (
  job: NonNullable<InvoiceLine["job"]>,
  further: InvoiceLine["furtherJobs"],
): { text: string; sub: string } => ({
  text: [job.number, ...further.map((one) => one.job.number)].join(", "),
  sub: further.length === 0 ? job.title : `${job.title}, and more`,
});
