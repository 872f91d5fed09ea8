import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Money } from "@/app/_ui/Money";
import { quotesBehind, type SentQuote } from "@/lib/data/figures/quotes";
import { rangesFor } from "@/lib/data/figures/ranges";
import { open } from "@/lib/gate/open";
import { FiguresQuery, PackageAsked } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";

/** So many stand on the page; the sums are over all of them. */
const MOST = 500;

const OUTCOMES: Readonly<Record<SentQuote["state"], string>> = {
  won: "won",
  lost: "lost or run out",
  open: "waiting",
};

/** The quotes behind a figure, newest first, with what all of them come to. */
export default async function QuotesBehind({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("figures.read", slug);
  const query = await searchParams;
  const asked = FiguresQuery.parse(query);
  const { package: ofPackage } = PackageAsked.parse(query);
  const ranges = await rangesFor(shop, asked);
  const { quotes, whole, more } = await quotesBehind(shop, ranges.range, ofPackage, MOST);
  const { currency, locale } = shop.settings;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  return (
    <>
      <FiguresHead
        shop={shop}
        title={`${ofPackage ?? "All packages"}: quotes`}
        room=""
        asked={asked}
        ranges={ranges}
      />
      {quotes.length === 0 ? (
        <Empty title="No quote was sent in this range." text="Choose another range." />
      ) : (
        <DataTable
          caption="Quotes behind this figure"
          locale={locale}
          columns={[
            { key: "number", header: "Quote" },
            { key: "day", header: "Sent", kind: "date" },
            { key: "customer", header: "Customer" },
            { key: "outcome", header: "What became of it" },
            { key: "gross", header: "Total", kind: "money" },
          ]}
          rows={quotes.map((one) => ({
            id: String(one.id),
            href: `/s/${slug}/quotes/${one.id}`,
            number: { text: `Quote ${one.number}`, sub: one.title },
            day: one.day,
            customer: one.customer,
            outcome: OUTCOMES[one.state],
            gross: { minor: one.grossMinor, currency },
          }))}
        />
      )}
      {more && <p className="mt-2 text-[15px] text-soft">The newest {MOST} are listed, all are counted.</p>}
      <Facts
        rows={[
          { name: `${whole.sent} sent`, value: money(whole.sentMinor) },
          { name: `${whole.won} won`, value: money(whole.wonMinor), strong: true },
        ]}
      />
    </>
  );
}
