import { DataTable } from "@/app/_ui/DataTable";
import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { journalPage } from "@/lib/data/ledger/journal";
import { open } from "@/lib/gate/open";
import { JournalAfterSchema, ledgerRange } from "@/lib/schemas/ledger";
import { RangeForm } from "../RangeForm";
import { lineRows } from "./lineRows";
import { WhatIsIn } from "./WhatIsIn";

/** The journal of a range, in the order of days: each entry opens at its document. */
export default async function Journal({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone, currency, taxRegime } = shop.settings;
  const query = await searchParams;
  const { after: place } = JournalAfterSchema.parse(query);
  const page = await journalPage(shop, ledgerRange(query, shop.now, zone), place);
  const after = place && `${place.day}.${place.turn}.${place.id}`;
  const path = `/s/${slug}/books/journal`;
  const { range } = page;
  const days = `from=${range.from}&to=${range.to}`;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Journal"
        sub={
          <>
            <DateText date={range.from} locale={locale} /> to <DateText date={range.to} locale={locale} />
          </>
        }
        actions={
          <>
            <LinkButton href={`/s/${slug}/books/balances?${days}`}>Trial balance</LinkButton>
            <LinkButton href={`/api/s/${slug}/books/journal?${days}`} download>
              Journal as CSV
            </LinkButton>
            {taxRegime === "no" && (
              <LinkButton href={`/api/s/${slug}/books/saft?${days}`} download>
                SAF-T Financial
              </LinkButton>
            )}
          </>
        }
      />
      <RangeForm action={path} range={range} />
      <p className="mb-4">
        {page.entries} entries, debits {money(page.debitMinor)}, credits the same.
        {page.rows.length < page.entries &&
          ` Here are ${page.skipped + 1} to ${page.skipped + page.rows.length}; the file has all.`}
      </p>
      <DataTable
        caption="Entries"
        columns={[
          { key: "entry", header: "Entry" },
          { key: "day", header: "Day", kind: "date" },
          { key: "account", header: "Account" },
          { key: "debit", header: "Debit", kind: "money", currency },
          { key: "credit", header: "Credit", kind: "money", currency },
        ]}
        locale={locale}
        rows={page.rows.flatMap((entry) => lineRows(entry, slug))}
        path={path}
        query={{ from: range.from, to: range.to, after }}
        next={page.next && `${page.next.day}.${page.next.turn}.${page.next.id}`}
        previous={after ? "" : null}
        empty={
          <Empty title="Nothing is booked in these days." text="Choose other days, or issue a document." />
        }
      />
      <WhatIsIn slug={slug} stockToo={page.book.stockToo} source={page.book.source} />
    </>
  );
}
