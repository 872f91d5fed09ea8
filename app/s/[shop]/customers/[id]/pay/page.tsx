import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { Money } from "@/app/_ui/Money";
import { moneyText } from "@/app/_ui/moneyText";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getCustomer } from "@/lib/data/customers/customers";
import { openDeposits, openInvoices } from "@/lib/data/payments/several";
import { firstOpenDay } from "@/lib/data/shop/closing";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { METHOD_WORDS } from "@/lib/schemas/paymentWords";
import { paySeveral } from "../../../invoices/actions";

/** One payment over several invoices of a customer. */
export default async function PaySeveralPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("payment.write", slug);
  const customerId = pathId(id);
  const customer = await getCustomer(shop, customerId, { invoices: false });
  if (!customer) notFound();
  const invoices = await openInvoices(shop, customerId);
  const { currency, locale, zone } = shop.settings;
  const payOn = await firstOpenDay(shop.read, dayOf(shop.now.getTime(), zone));
  const deposits = await openDeposits(shop.read, customerId);
  const due = [...invoices, ...deposits].reduce((sum, one) => sum + one.leftMinor, 0);
  return (
    <>
      <PageHead
        of={shop.name}
        title="One payment for several invoices"
        sub={
          <Link
            href={`/s/${slug}/customers/${customerId}`}
            className="underline decoration-hair underline-offset-4 hover:decoration-ink"
          >
            {customer.name}
          </Link>
        }
      />
      {due === 0 ? (
        <Empty
          title="Nothing is to be paid."
          text="All issued invoices of this customer are settled, and no deposit is open."
        />
      ) : (
        <Form action={paySeveral} shop={slug} hidden={{ customerId: String(customerId) }} label="One payment">
          <div className="grid gap-x-10 rail:grid-cols-2">
            <Section title="Pays these, the oldest first">
              {invoices.map((one) => (
                <CheckField
                  key={one.id}
                  ruled
                  name="invoices[]"
                  value={String(one.id)}
                  initial
                  label={`Invoice ${one.written}`}
                  detail={
                    one.dueOn && (
                      <>
                        due <DateText date={one.dueOn} locale={locale} />
                      </>
                    )
                  }
                  figure={<Money minor={one.leftMinor} currency={currency} locale={locale} />}
                />
              ))}
              {deposits.map((job) => (
                <CheckField
                  key={job.id}
                  ruled
                  name="deposits[]"
                  value={String(job.id)}
                  initial
                  label={`Deposit of job ${job.number}`}
                  detail={job.title}
                  figure={<Money minor={job.leftMinor} currency={currency} locale={locale} />}
                />
              ))}
            </Section>
            <Section title="The payment">
              <TextField
                name="amount"
                label={`Amount, ${currency}`}
                inputMode="decimal"
                mono
                required
                initial={moneyText(due, currency, locale)}
                hint="The last that is ticked may be paid in part."
              />
              <ChoiceField
                name="method"
                label="How"
                initial="transfer"
                options={(["transfer", "card"] as const).map((value) => ({
                  value,
                  label: METHOD_WORDS[value],
                }))}
              />
              <CheckField
                name="keepRest"
                label="Keep what is over as the customer's balance"
                detail="It comes off another invoice, or goes back."
              />
              <DateField name="paidOn" label="Day" initial={payOn} max={payOn} required />
              <TextField name="reference" label="Reference, if any" maxLength={120} />
              <SubmitButton>Record the payment</SubmitButton>
            </Section>
          </div>
        </Form>
      )}
    </>
  );
}
