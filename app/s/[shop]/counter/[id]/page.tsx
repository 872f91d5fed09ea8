import { notFound } from "next/navigation";
import { PrintedLines } from "@/app/_documents/PrintedLines";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickCustomers } from "@/lib/data/customers/pick";
import { getSale } from "@/lib/data/sales/get";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { KIND_NAMES, STANDING_WORDS } from "@/lib/schemas/invoices";
import { PaymentList } from "../../invoices/PaymentList";
import { Documents } from "./Documents";
import { FullInvoice, MailIt, TakeItBack } from "./SaleActs";

export default async function SalePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("sale.write", slug);
  const sale = await getSale(shop, pathId(id));
  if (!sale) notFound();
  const { currency, locale, zone } = shop.settings;
  const { doc, shown, takenBack } = sale;
  const change = doc.settlements.find((one) => one.changeMinor > 0);
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  const state = STANDING_WORDS[takenBack ? "credited" : "paid"];
  const acts = { slug, sale, currency, locale };
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${KIND_NAMES[shown.kind]} ${shown.written}`}
        sub={
          <>
            <Instant at={sale.soldAt.toISOString()} locale={locale} zone={zone} />
            {doc.buyer.name && `, ${doc.buyer.name}`}
          </>
        }
        state={
          <State shape={state.shape} tone={state.tone}>
            {takenBack ? "taken back" : state.word}
          </State>
        }
        actions={
          <>
            <MailIt {...acts} />
            <LinkButton href={`/api/s/${slug}/invoices/${shown.id}/pdf`} download>
              Print the {KIND_NAMES[shown.kind].toLowerCase()}
            </LinkButton>
            {shown.kind === "receipt" && (
              <LinkButton href={`/api/s/${slug}/invoices/${shown.id}/pdf?on=sheet`} download>
                Print it on a sheet
              </LinkButton>
            )}
            <LinkButton href={`/s/${slug}/counter`} tone="main">
              Next sale
            </LinkButton>
          </>
        }
      />
      {change && !takenBack && (
        <p className="mb-5 border-brass-fill border-l-4 bg-wash px-3 py-2 font-bold text-[19px]">
          Change {money(change.changeMinor)} of {money(change.givenMinor)}
        </p>
      )}
      <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <Section title="Sold">
          <PrintedLines doc={doc} />
        </Section>
        <div>
          <Section title="Money">
            <PaymentList payments={sale.payments} currency={currency} locale={locale} />
          </Section>
          <Documents slug={slug} documents={sale.documents} currency={currency} locale={locale} />
          {!takenBack && (
            <Section title="Otherwise">
              <div className="flex flex-wrap gap-2.5">
                {shown.kind === "receipt" && (
                  <FullInvoice {...acts} newest={(await pickCustomers(shop, "", MOST_NEWEST)).rows} />
                )}
                <TakeItBack {...acts} />
              </div>
            </Section>
          )}
        </div>
      </div>
    </>
  );
}
