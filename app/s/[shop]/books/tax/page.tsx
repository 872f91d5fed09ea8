import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { closedThrough } from "@/lib/data/shop/closing";
import { taxTermsOf } from "@/lib/data/shop/taxTerms";
import { taxReport } from "@/lib/data/taxReport/summary";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { taxStretch } from "@/lib/schemas/tax";
import { Cells } from "./Cells";
import { Reporting } from "./Reporting";
import { Stretch } from "./Stretch";

const COUNTS = {
  issued:
    "Documents count by the day they were issued, with receipts of the counter: invoices and receipts add, credit notes and returns take off. Payments, refunds and bounced payments change nothing.",
  paid: "Money counts by the day it moved, as its share of what its document charges: over the rates by largest remainder, so that a document paid in full comes to its tax to the cent. Refunds and bounced payments take off. A credit takes off what was paid above the rest. What is paid above what is due is the customer's, and counts once it is used. What is written off never counts. Rounding to coins is no part of it.",
} as const;

/** Sales and their tax in a stretch of days, by rate and category; every figure opens to its documents. */
export default async function TaxPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone, taxRegime, currency } = shop.settings;
  const terms = await taxTermsOf(shop.read, taxRegime);
  const { months, ...query } = taxStretch(await searchParams, terms, dayIn(zone, shop.now));
  const [report, through] = await Promise.all([
    taxReport(shop.read, { ...query, depositsReceived: terms.depositsReceived }),
    closedThrough(shop.read),
  ]);
  const cells = { slug, query, formats: { currency, locale, taxRegime } };
  const closed = through >= query.to;
  const { main, deposits, off, all } = report;
  const search = new URLSearchParams({ ...query }).toString();
  return (
    <>
      <PageHead
        of={shop.name}
        title="Tax"
        sub={
          <>
            <DateText date={query.from} locale={locale} /> to <DateText date={query.to} locale={locale} />,{" "}
            {query.basis}
            {closed && ", closed"}
          </>
        }
        actions={
          shop.can("export.run") && (
            <LinkButton href={`/api/s/${slug}/tax/csv?${search}`} download>
              Export CSV
            </LinkButton>
          )
        }
      />
      <Stretch slug={slug} query={query} months={months} />
      {main.cells.length === 0 && !deposits?.cells.length ? (
        <Empty title="Nothing counts in these days." text="Choose other days, or the other basis." />
      ) : (
        <>
          <Cells {...cells} part="main" caption="Sales" summary={main} />
          {deposits && deposits.cells.length > 0 && (
            <>
              <Cells
                {...cells}
                part="deposits"
                caption="Deposits before their invoice: in as they come, out with the invoice"
                summary={deposits}
              />
              <p className="mt-3 mb-5 font-bold">
                Sales and deposits together: net{" "}
                <Money minor={all.netMinor} currency={currency} locale={locale} />, tax{" "}
                <Money minor={all.taxMinor} currency={currency} locale={locale} />
              </p>
            </>
          )}
        </>
      )}
      {off && off.cells.length > 0 && (
        <>
          <Cells {...cells} part="off" caption="Written off, not taken off above" summary={off} />
          <p className="mt-2 mb-5 max-w-prose text-[15px] text-soft">
            The tax in bad debts is claimed back by a rule of its own in each country: ask your accountant.
          </p>
        </>
      )}
      <p className="mt-6 max-w-prose text-[15px] text-soft">{COUNTS[query.basis]}</p>
      <p className="mt-2 max-w-prose text-[15px] text-soft">
        Only sales are in here: what you bought, and the tax in that, is not. Categories are those of EN 16931
        (S standard, Z zero-rated, E exempt, O outside the scope).
      </p>
      {shop.can("shop.write") && <Reporting slug={slug} regime={taxRegime} terms={terms} />}
    </>
  );
}
