import { buttonLook } from "@/app/_ui/buttonLook";
import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { MOST_OPEN } from "@/lib/data/chasing/accounts";
import { listOwing, listOwingDocuments } from "@/lib/data/chasing/owing";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { COLUMN_WORDS, OwingQuery } from "@/lib/schemas/chasing";
import { owingHref } from "./address";
import { Customers } from "./Customers";
import { Documents } from "./Documents";

/** Who owes what at the end of a day, by age; each figure opens to its documents. */
export default async function OwingPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("invoice.read", slug);
  const { locale, zone, currency } = shop.settings;
  const { after, ...query } = OwingQuery.parse(await searchParams);
  const on = query.on ?? dayIn(zone, shop.now);
  const documents = query.customer !== undefined || query.column !== undefined || query.by !== undefined;
  const owing = documents ? null : await listOwing(shop, on, after);
  const behind = documents
    ? await listOwingDocuments(shop, on, { customerId: query.customer, column: query.column })
    : null;
  const { sums, more } = owing ?? behind ?? { sums: { totalMinor: 0 }, more: false };
  const customer = query.customer === undefined ? null : behind?.lines[0]?.customer;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Owing"
        sub={
          <>
            {customer && <>{customer.name}, </>}
            {query.column && <>{COLUMN_WORDS[query.column].toLowerCase()}, </>}
            at the end of <DateText date={on} locale={locale} />
          </>
        }
        actions={
          <>
            {shop.can("chasing.write") && (
              <LinkButton href={`/s/${slug}/invoices/reminders`}>Reminders to send</LinkButton>
            )}
            {documents && <LinkButton href={owingHref(slug, { on })}>All customers</LinkButton>}
            {shop.can("export.run") && (
              <LinkButton href={`/api/s/${slug}/owing/csv?on=${on}`} download>
                Export CSV
              </LinkButton>
            )}
          </>
        }
      />
      <form method="get" aria-label="Day" className="mb-5 flex flex-wrap items-end gap-3 print:hidden">
        {query.customer !== undefined && <input type="hidden" name="customer" value={query.customer} />}
        {query.column !== undefined && <input type="hidden" name="column" value={query.column} />}
        {query.by !== undefined && <input type="hidden" name="by" value={query.by} />}
        <DateField name="on" label="At the end of" initial={on} className="mb-0!" />
        <button type="submit" className={buttonLook("second")}>
          Show
        </button>
      </form>
      {more && (
        <Note title="There are more than are added up here.">
          At most {MOST_OPEN} open invoices and as many jobs with money are read at once, the oldest first.
        </Note>
      )}
      {owing && owing.rows.length > 0 && (
        <Customers slug={slug} on={on} owing={owing} currency={currency} locale={locale} />
      )}
      {behind && behind.lines.length > 0 && (
        <>
          <Documents slug={slug} lines={behind.lines} currency={currency} locale={locale} />
          <Facts
            rows={[
              {
                name: "In all",
                value: <Money minor={sums.totalMinor} currency={currency} locale={locale} code />,
                strong: true,
              },
            ]}
          />
        </>
      )}
      {(owing ? owing.rows.length : (behind?.lines.length ?? 0)) === 0 && (
        <Empty
          title="Nothing is owing."
          text="Open invoices, over-payments, deposits and credit notes that are not used up stand here."
        />
      )}
      {owing?.next && (
        <LinkButton href={owingHref(slug, { on, after: owing.next })} className="mt-4">
          More customers
        </LinkButton>
      )}
      <p className="mt-6 max-w-prose text-[15px] text-soft">
        What is below zero is the customer's: paid over what invoices came to, paid before an invoice, or left
        by a credit note. All of it together is what documents and payments come to by that day; sales over
        the counter are paid as they are made and are no part of it.
      </p>
    </>
  );
}
