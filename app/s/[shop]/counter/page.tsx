import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickBuyers } from "@/lib/data/sales/buyers";
import { recentSales } from "@/lib/data/sales/get";
import { counterTerms } from "@/lib/data/sales/parts";
import { open } from "@/lib/gate/open";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { SenderGaps } from "../_papers/SenderGaps";
import { EarlierDate } from "../invoices/[id]/EarlierDate";
import { CounterDesk } from "./CounterDesk";

export default async function CounterPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("sale.write", slug);
  const { locale, zone } = shop.settings;
  const [terms, recent, buyers] = await Promise.all([
    counterTerms(shop),
    recentSales(shop),
    pickBuyers(shop, "", MOST_NEWEST),
  ]);
  const { rules, stepMinor, today, later } = terms;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Counter"
        sub="Parts sold without a job"
        actions={shop.can("day.close") && <LinkButton href={`/s/${slug}/books/day`}>End of day</LinkButton>}
      />
      <SenderGaps shop={shop} />
      <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,1fr)]">
        <CounterDesk
          shop={slug}
          rules={rules}
          stepMinor={stepMinor}
          buyers={buyers.rows}
          earlier={later && <EarlierDate later={later} today={today} locale={locale} />}
        />
        <Section title="Last sales">
          {recent.length === 0 && <p className="text-soft">None yet.</p>}
          <ul>
            {recent.map((one) => (
              <li key={one.id} className="border-hair border-b py-1.5">
                <Link
                  href={`/s/${slug}/counter/${one.saleId}`}
                  className="flex min-h-8 items-center justify-between gap-3 pointer-coarse:min-h-12"
                >
                  <span>
                    {KIND_NAMES[one.kind]} {one.written}
                  </span>
                  <Money minor={one.grossMinor} currency={rules.currency} locale={locale} />
                </Link>
                <p className="text-[14px] text-soft">
                  <Instant at={one.createdAt.toISOString()} locale={locale} zone={zone} />
                  {one.customer && `, ${one.customer.name}`}
                  {one.creditedBy.length > 0 && `, taken back with ${one.creditedBy[0]?.written}`}
                </p>
              </li>
            ))}
          </ul>
        </Section>
      </div>
    </>
  );
}
