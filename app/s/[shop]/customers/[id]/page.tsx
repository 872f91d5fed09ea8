import { notFound, redirect } from "next/navigation";
import type { ReactNode } from "react";
import { DataTable } from "@/app/_ui/DataTable";
import { Facts } from "@/app/_ui/Facts";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { noShowsOf } from "@/lib/data/bookings/late";
import { remindersOf } from "@/lib/data/chasing/sent";
import { keptInstead } from "@/lib/data/common/merged";
import { getCustomer } from "@/lib/data/customers/customers";
import { keptOf } from "@/lib/data/erasing/keeping";
import { isErased } from "@/lib/data/erasing/known";
import { balanceOf } from "@/lib/data/payments/balance";
import { openDeposits, openInvoices } from "@/lib/data/payments/several";
import { standing } from "@/lib/domain/invoices/state";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { KIND_NAMES, STANDING_WORDS } from "@/lib/schemas/invoices";
import { Reminders } from "../../_chasing/Reminders";
import { BikeLines } from "../../bikes/BikeLines";
import { type Formats, Jobs, Quotes } from "../History";
import { KeptRecords } from "../KeptRecords";

type Customer = NonNullable<Awaited<ReturnType<typeof getCustomer>>>;

export default async function CustomerPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("customer.read", slug);
  const withInvoices = shop.can("invoice.read");
  const customer = await getCustomer(shop, pathId(id), { invoices: withInvoices });
  if (!customer) {
    const merged = await keptInstead(shop.read, "customer", pathId(id));
    return merged ? redirect(`/s/${slug}/customers/${merged.keptId}`) : notFound();
  }
  const today = dayOf(shop.now.getTime(), shop.settings.zone);
  const [balanceMinor, invoices, deposits, reminders, kept, missed] = await Promise.all([
    withInvoices ? balanceOf(shop, customer.id) : 0,
    withInvoices ? openInvoices(shop, customer.id) : [],
    withInvoices ? openDeposits(shop.read, customer.id) : [],
    withInvoices ? remindersOf(shop.read, { customerId: customer.id }, today) : null,
    isErased(customer) && withInvoices ? keptOf(shop, customer.id) : null,
    noShowsOf(shop, customer.id),
  ]);
  const owing = invoices.length + deposits.length;
  const { locale, zone, currency, units } = shop.settings;
  const formats: Formats = { slug, locale, zone, currency };
  const addBike = shop.can("bike.write") && (
    <LinkButton href={`/s/${slug}/bikes/new?customer=${customer.id}`} tone="main">
      Add a bike
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title={customer.name}
        sub={customer.business ? "Business" : undefined}
        actions={
          <>
            {shop.can("customer.write") && (
              <LinkButton href={`/s/${slug}/customers/${customer.id}/edit`}>Change</LinkButton>
            )}
            {customer.business && shop.can("customer.write") && (
              <LinkButton href={`/s/${slug}/customers/${customer.id}/einvoice`}>E-invoices</LinkButton>
            )}
            {addBike}
          </>
        }
      />
      {kept && (
        <Section title="Erased: what is kept">
          <p className="max-w-[720px]">
            Their personal data was erased. What follows still says who they were, since the law wants it kept
            for {kept.years} years after its accounting year. {kept.source}.
          </p>
          <KeptRecords slug={slug} locale={locale} kept={kept.kept} />
        </Section>
      )}
      <div className="grid gap-x-10 lg:grid-cols-[minmax(0,2fr)_minmax(0,3fr)]">
        <Section title="Reached at">
          <Contact
            customer={customer}
            missed={
              missed &&
              `${missed.count === 1 ? "once" : `${missed.count} times`}, last on ${instantText(missed.last.toISOString(), locale, zone, "date")}`
            }
          />
        </Section>
        <Section title="Bikes">
          <BikeLines slug={slug} locale={locale} units={units} bikes={customer.bikes} />
        </Section>
      </div>
      <Quotes formats={formats} quotes={customer.quotes} />
      <Jobs formats={formats} jobs={customer.jobs} />
      {withInvoices && (
        <Invoices formats={formats} invoices={customer.invoices} today={today}>
          {balanceMinor > 0 && (
            <p className="mt-3">
              Balance, paid over what invoices came to:{" "}
              <Money minor={balanceMinor} currency={currency} locale={locale} code />
            </p>
          )}
          <p className="mt-3 flex flex-wrap gap-2.5">
            <LinkButton href={`/s/${slug}/customers/${customer.id}/statement`}>Statement</LinkButton>
            {shop.can("payment.write") && owing > 1 && (
              <LinkButton href={`/s/${slug}/customers/${customer.id}/pay`}>
                One payment for several
              </LinkButton>
            )}
          </p>
          {reminders && (
            <Reminders
              slug={slug}
              reminders={reminders}
              of={{ customerId: customer.id }}
              open={owing > 0}
              today={today}
              currency={currency}
              locale={locale}
              mayChase={shop.can("chasing.write")}
            />
          )}
        </Invoices>
      )}
    </>
  );
}

function Contact({ customer, missed }: { customer: Customer; missed: string | null }) {
  const link = (href: string, text: string) => (
    <Link href={href} className="text-brass underline underline-offset-4">
      {text}
    </Link>
  );
  const rows = [
    {
      name: "Phone",
      value: customer.phone && link(`tel:${customer.phone.replace(/[^\d+]/g, "")}`, customer.phone),
      mono: true,
    },
    { name: "E-mail", value: customer.email && link(`mailto:${customer.email}`, customer.email) },
    { name: "Letters", value: customer.noLetters && "none are written" },
    {
      name: "Address",
      value: customer.address && <span className="whitespace-pre-line">{customer.address}</span>,
    },
    { name: "Tax number", value: customer.taxNumber, mono: true },
    {
      name: customer.discountClass || "Discount",
      value: customer.discountBp > 0 && `${customer.discountBp / 100} %`,
      mono: true,
    },
    { name: "Did not come", value: missed },
    { name: "Notes", value: customer.notes && <span className="whitespace-pre-line">{customer.notes}</span> },
  ].filter((row) => row.value);
  return rows.length > 0 ? <Facts rows={rows} /> : <p className="text-soft">Nothing is written down yet.</p>;
}

function Invoices({
  formats,
  invoices,
  today,
  children,
}: {
  children: ReactNode;
  formats: Formats;
  invoices: Customer["invoices"];
  today: string;
}) {
  return (
    <Section title="Invoices">
      <DataTable
        caption="Invoices"
        columns={[
          { key: "number", header: "Number" },
          { key: "issued", header: "Issued", kind: "date" },
          { key: "due", header: "Due", kind: "date" },
          { key: "gross", header: "Total", kind: "money" },
          { key: "state", header: "State", kind: "state" },
        ]}
        locale={formats.locale}
        rows={invoices.map((invoice) => ({
          id: String(invoice.id),
          href: `/s/${formats.slug}/invoices/${invoice.id}`,
          number: `${KIND_NAMES[invoice.kind]} ${invoice.written || "draft"}`,
          issued: invoice.issuedOn,
          due: invoice.dueOn,
          gross: { minor: invoice.grossMinor, currency: formats.currency },
          state: STANDING_WORDS[standing({ ...invoice, credited: invoice.takenBack }, today)],
        }))}
        empty={<p className="text-soft">None yet.</p>}
      />
      {children}
    </Section>
  );
}
