import { notFound } from "next/navigation";
import { HowToPay } from "@/app/_documents/HowToPay";
import { PrintedLines } from "@/app/_documents/PrintedLines";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { openFees } from "@/lib/data/chasing/fees";
import { remindersOf } from "@/lib/data/chasing/sent";
import { getInvoice } from "@/lib/data/invoices/get";
import { balanceOf } from "@/lib/data/payments/balance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { BASIS_WORDS, KIND_NAMES } from "@/lib/schemas/invoices";
import { FeesToCharge } from "../../_chasing/FeesToCharge";
import { Reminders } from "../../_chasing/Reminders";
import { Letters } from "../../_letters/Letters";
import { SenderGaps } from "../../_papers/SenderGaps";
import { PaymentList } from "../PaymentList";
import { Standing } from "../Standing";
import { About, printedRows } from "./About";
import { DraftActs, DraftOtherwise, JobsOnIt } from "./DraftActs";
import { ChangesMade, DraftLines } from "./DraftLines";
import { BrokenRules, OrderNumber } from "./Einvoice";
import { IssuedActs, TakingBack, WritingOff } from "./IssuedActs";

export default async function InvoicePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("invoice.read", slug);
  const invoice = await getInvoice(shop, pathId(id));
  if (!invoice) notFound();
  const { currency, locale, zone } = shop.settings;
  const writes = {
    slug,
    invoice,
    currency,
    locale,
    mayInvoice: shop.can("invoice.write"),
    mayPay: shop.can("payment.write"),
    mayWriteOff: shop.can("payment.writeOff"),
    mayChase: shop.can("chasing.write"),
  };
  const { customer } = invoice;
  const [balanceMinor, reminders, fees] = await Promise.all([
    customer && invoice.leftMinor > 0 ? balanceOf(shop, customer.id) : 0,
    invoice.state === "issued" && invoice.kind === "invoice" && invoice.saleId === null
      ? remindersOf(shop.read, { invoiceId: invoice.id }, invoice.today)
      : null,
    invoice.state === "draft" && writes.mayInvoice && customer
      ? openFees(shop.read, { customerId: customer.id })
      : [],
  ]);
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  const kind = KIND_NAMES[invoice.kind];
  return (
    <>
      <PageHead
        of={shop.name}
        title={invoice.number === null ? "Invoice, draft" : `${kind} ${invoice.written}`}
        sub={<About slug={slug} invoice={invoice} />}
        state={<Standing standing={invoice.standing} lateDays={invoice.lateDays} />}
        actions={
          <>
            {invoice.doc && (
              <LinkButton href={`/api/s/${slug}/invoices/${invoice.id}/pdf`} download>
                PDF
              </LinkButton>
            )}
            {invoice.state === "issued" && invoice.doc?.einvoice && (
              <LinkButton href={`/api/s/${slug}/invoices/${invoice.id}/xml`} download>
                E-invoice
              </LinkButton>
            )}
            {invoice.state === "draft" ? (
              <DraftActs {...writes} />
            ) : (
              <IssuedActs {...writes} balanceMinor={balanceMinor} />
            )}
          </>
        }
      />
      {invoice.state === "draft" && <SenderGaps shop={shop} />}
      {invoice.refused && <Note title={invoice.refused.message}>{invoice.refused.remedy}</Note>}
      {invoice.missing.length > 0 && (
        <Note title="Before it can be issued:">
          <ul>
            {invoice.missing.map((one) => (
              <li key={one.field}>
                {one.what} is missing. {one.remedy}
              </li>
            ))}
          </ul>
        </Note>
      )}
      <BrokenRules slug={slug} invoice={invoice} />
      <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        {invoice.doc && (
          <Section
            title={
              invoice.kind === "creditNote"
                ? "What was credited"
                : invoice.doc.basis === "counter"
                  ? "Sold over the counter"
                  : invoice.corrects !== null
                    ? `What stays of invoice ${invoice.corrects}`
                    : charged(invoice.jobs, invoice.doc.basis)
            }
          >
            <PrintedLines doc={invoice.doc} />
            {invoice.edits.length > 0 && invoice.state === "draft" && (
              <p className="mt-2">{changed(invoice.edits.length)} by hand: see line by line.</p>
            )}
          </Section>
        )}
        <div>
          {invoice.doc && (
            <Section title="Printed on it">
              <Facts rows={printedRows(invoice, locale)} />
            </Section>
          )}
          {invoice.state === "issued" && invoice.kind !== "creditNote" && (
            <Section title="Money">
              {invoice.payments.length > 0 && (
                <PaymentList
                  payments={invoice.payments}
                  currency={currency}
                  locale={locale}
                  papers={invoice.saleId === null ? { slug, mayMail: writes.mayPay } : undefined}
                  bounces={
                    writes.mayPay && invoice.saleId === null ? { slug, today: invoice.payOn } : undefined
                  }
                />
              )}
              <Facts
                rows={[
                  ...(invoice.takenBack
                    ? []
                    : invoice.creditedBy.map((credit) => ({
                        name: `Credited with ${credit.written}`,
                        value: money(credit.grossMinor),
                      }))),
                  {
                    name: invoice.leftMinor < 0 ? "To pay back" : "To be paid",
                    value: money(Math.abs(invoice.leftMinor)),
                    strong: true,
                  },
                ]}
              />
              {invoice.takenBack && invoice.depositLeftMinor > 0 && (
                <p className="mt-2">
                  {money(invoice.depositLeftMinor)} of it is still held: it comes off the next invoice, or
                  goes back.
                </p>
              )}
            </Section>
          )}
          {reminders && (
            <Reminders
              {...writes}
              reminders={reminders}
              of={{ invoiceId: invoice.id }}
              open={invoice.leftMinor > 0}
              today={invoice.today}
            />
          )}
          <FeesToCharge slug={slug} draft={invoice} fees={fees} currency={currency} locale={locale} />
          {invoice.ask && (
            <Section title="How it is paid">
              <HowToPay ask={invoice.ask} currency={currency} amountMinor={invoice.leftMinor} locale="en" />
            </Section>
          )}
          <Letters letters={invoice.letters} locale={locale} zone={zone} />
          <ChangesMade invoice={invoice} locale={locale} zone={zone} />
          <OrderNumber {...writes} />
          {invoice.state === "draft" && <JobsOnIt {...writes} />}
          {invoice.state === "issued" && <WritingOff {...writes} />}
          {invoice.state === "draft" ? <DraftOtherwise {...writes} /> : <TakingBack {...writes} />}
        </div>
      </div>
      {invoice.state === "draft" && <DraftLines {...writes} zone={zone} />}
    </>
  );
}

const changed = (lines: number) => `${lines} ${lines === 1 ? "line is" : "lines are"} changed`;

/** How it is charged; jobs that are charged in different ways say so themselves. */
function charged(jobs: readonly { basis: string }[], basis: keyof typeof BASIS_WORDS): string {
  return jobs.every((job) => job.basis === basis) ? `Charged ${BASIS_WORDS[basis]}` : "Charged";
}
