import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { journalPage } from "@/lib/data/ledger/journal";
import { open } from "@/lib/gate/open";
import { ledgerRange } from "@/lib/schemas/ledger";
import { RangeForm } from "../RangeForm";
import { EntryRows } from "./EntryRows";
import { WhatIsIn } from "./WhatIsIn";

/** The journal of a range, day by day: each entry opens at its document. */
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
  const asked = ledgerRange(await searchParams, shop.now, zone);
  const page = await journalPage(shop, asked);
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
      <RangeForm action={`/s/${slug}/books/journal`} range={range} />
      <p className="mb-4">
        {page.entries} entries, debits {money(page.debitMinor)}, credits the same.
      </p>
      {page.days.length === 0 && (
        <Empty title="Nothing is booked in these days." text="Choose other days, or issue a document." />
      )}
      {page.days.map(({ day, entries }) => (
        <Section key={day} title={<DateText date={day} locale={locale} look="long" />}>
          <EntryRows entries={entries} slug={slug} money={money} />
        </Section>
      ))}
      {page.next && (
        <LinkButton href={`/s/${slug}/books/journal?from=${page.next}&to=${range.to}`}>
          Go on from <DateText date={page.next} locale={locale} />
        </LinkButton>
      )}
      <WhatIsIn slug={slug} stockToo={page.book.stockToo} source={page.book.source} />
    </>
  );
}
