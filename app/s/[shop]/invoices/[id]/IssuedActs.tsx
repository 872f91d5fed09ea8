import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { NoLetter } from "../../_letters/NoLetter";
import {
  credit,
  dueAgain,
  fromBalance,
  giveBack,
  linkInvoice,
  takePayment,
  writeOff,
  writeToCustomer,
} from "../actions";
import { MoneyForm } from "../MoneyForm";
import type { ActsProps } from "./DraftActs";
import { EarlierDate } from "./EarlierDate";

const moneyForm = ({ slug, invoice, currency, locale }: ActsProps) => ({
  shop: slug,
  currency,
  locale,
  stepMinor: invoice.cashRoundingMinor,
  today: invoice.payOn,
});

const stands = ({ invoice }: ActsProps) => invoice.kind === "invoice" && !invoice.takenBack;

/** What is done with an issued document: the customer gets to see it, and pays it. */
export function IssuedActs(props: ActsProps & { balanceMinor: number }) {
  const { slug, invoice, mayInvoice, mayPay, mayChase, balanceMinor, currency, locale } = props;
  const { leftMinor } = invoice;
  return (
    <>
      {mayInvoice && <ToTheCustomer slug={slug} invoice={invoice} />}
      {mayChase && invoice.standing === "late" && (
        <LinkButton href={`/s/${slug}/invoices/${invoice.id}/remind`}>Remind of the payment</LinkButton>
      )}
      {mayPay && stands(props) && leftMinor > 0 && balanceMinor > 0 && (
        <Dialog trigger="Take from the balance" title="Take from the balance">
          <Form
            action={fromBalance}
            shop={slug}
            hidden={{ invoiceId: String(invoice.id) }}
            label="From the balance"
          >
            <p className="mb-3 max-w-prose">
              The customer has paid <Money minor={balanceMinor} currency={currency} locale={locale} code />{" "}
              more than other invoices came to.{" "}
              <Money minor={Math.min(balanceMinor, leftMinor)} currency={currency} locale={locale} code /> of
              it pays this one.
            </p>
            <SubmitButton>Take it off this invoice</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayPay && stands(props) && leftMinor > 0 && (
        <Dialog
          trigger="Record a payment"
          triggerTone="main"
          title={`Payment for invoice ${invoice.written}`}
        >
          <MoneyForm
            {...moneyForm(props)}
            action={takePayment}
            hidden={{ invoiceId: String(invoice.id) }}
            mostMinor={leftMinor}
            amountMinor={leftMinor}
            submit="Record the payment"
            twoWays
            mayKeepRest
            reference="Reference, if any"
          />
        </Dialog>
      )}
    </>
  );
}

const nobody = { name: "", phone: "", email: "" };
type OfInvoice = Pick<ActsProps, "slug" | "invoice">;

function ToTheCustomer({ slug, invoice }: OfInvoice) {
  const hidden = { id: String(invoice.id) };
  const { withheld } = invoice;
  const customer = invoice.customer ?? nobody;
  return (
    <Dialog trigger="To the customer" title="To the customer">
      {withheld.paper ? (
        <div className="mb-3">
          <NoLetter withheld={withheld.paper} customer={customer} />
        </div>
      ) : (
        <Form action={writeToCustomer} shop={slug} hidden={hidden} label="Mail the link">
          <p className="mb-3">A mail with the link goes to {customer.email}.</p>
          <SubmitButton>Write the mail</SubmitButton>
        </Form>
      )}
      <Form action={linkInvoice} shop={slug} hidden={hidden} label="Make a link" className="mt-5">
        <ShownLink before={<p className="mb-2">Copy it now: it is shown once.</p>} />
        <SubmitButton tone="second">Make a link</SubmitButton>
      </Form>
    </Dialog>
  );
}

/** What will not be paid is written off, and taken back should it be paid after all. */
export function WritingOff({ slug, invoice, currency, locale, mayWriteOff }: ActsProps) {
  const { leftMinor, writtenOffMinor, id } = invoice;
  if (!mayWriteOff || invoice.takenBack || invoice.kind !== "invoice" || invoice.saleId !== null) return null;
  if (leftMinor <= 0 && writtenOffMinor === 0) return null;
  const hidden = { invoiceId: String(id) };
  return (
    <Section title="What will not be paid">
      <div className="flex flex-wrap gap-2.5">
        {leftMinor > 0 && (
          <Dialog trigger="Write off" title={`Write off of invoice ${invoice.written}`}>
            <Form action={writeOff} shop={slug} hidden={hidden} label="Write off">
              <p className="mb-3 max-w-prose">
                The invoice stays as it was issued, and so does its tax: ask your accountant whether tax on
                bad debts can be claimed back.
              </p>
              <TextField
                name="amount"
                label={`Amount, ${currency}`}
                inputMode="decimal"
                mono
                required
                initial={moneyText(leftMinor, currency, locale)}
              />
              <TextArea name="reference" label="Why" rows={2} maxLength={120} required />
              <SubmitButton tone="danger">Write it off</SubmitButton>
            </Form>
          </Dialog>
        )}
        {writtenOffMinor > 0 && (
          <Dialog trigger="Take the write-off back" title="Take the write-off back">
            <Form action={dueAgain} shop={slug} hidden={hidden} label="Take the write-off back">
              <p className="mb-3 max-w-prose">
                <Money minor={writtenOffMinor} currency={currency} locale={locale} code /> is due again.
              </p>
              <TextArea name="reference" label="Why" rows={2} maxLength={120} required />
              <SubmitButton>Take it back</SubmitButton>
            </Form>
          </Dialog>
        )}
      </div>
    </Section>
  );
}

/** Taking it back: a credit note, money that goes back, and the next invoice after. */
export function TakingBack(props: ActsProps) {
  const { slug, invoice, locale, mayInvoice, mayPay } = props;
  const { leftMinor } = invoice;
  if (invoice.saleId !== null)
    return (
      <Section title="Taking it back">
        <LinkButton href={`/s/${slug}/counter/${invoice.saleId}`}>To the sale</LinkButton>
      </Section>
    );
  if (invoice.kind !== "invoice" || !(mayInvoice || mayPay)) return null;
  const standing = stands(props);
  return (
    <Section title="Taking it back">
      <div className="flex flex-wrap gap-2.5">
        {mayInvoice && standing && (
          <LinkButton href={`/s/${slug}/invoices/${invoice.id}/credit`}>Credit by line or amount</LinkButton>
        )}
        {mayInvoice && standing && (
          <Dialog trigger="Credit in full" title={`Credit invoice ${invoice.written} in full`}>
            <Form action={credit} shop={slug} hidden={{ id: String(invoice.id) }} label="Credit">
              <p className="mb-3 max-w-prose">
                A credit note with its own number takes{" "}
                {invoice.creditedBy.length > 0 ? "all that is left of the invoice" : "the whole invoice"}{" "}
                back. Its jobs can then be invoiced again; money paid stays with them until it comes off the
                next invoice or goes back. This cannot be undone.
              </p>
              <TextArea
                name="reason"
                label="Why (printed on the credit note)"
                rows={2}
                maxLength={300}
                required
              />
              <EarlierDate later={invoice.later} today={invoice.today} locale={locale} />
              <SubmitButton tone="danger">Credit it for good</SubmitButton>
            </Form>
          </Dialog>
        )}
        {mayPay &&
          invoice.jobs.map(({ id, number, heldMinor }) => {
            if (heldMinor <= 0) return null;
            const title = invoice.jobs.length > 1 ? `Give money of job ${number} back` : "Give money back";
            return (
              <Dialog key={id} trigger={title} title={title}>
                {standing && leftMinor >= 0 && (
                  <p className="mb-3 max-w-prose">The invoice stands, so what goes back is due again.</p>
                )}
                <MoneyForm
                  {...moneyForm(props)}
                  action={giveBack}
                  hidden={{ jobId: String(id) }}
                  mostMinor={heldMinor}
                  amountMinor={leftMinor < 0 ? Math.min(heldMinor, 0 - leftMinor) : heldMinor}
                  submit="Record as given back"
                  reference="Why it goes back"
                />
              </Dialog>
            );
          })}
        {mayInvoice && !standing && (
          <LinkButton href={`/s/${slug}/invoices/new?job=${invoice.jobId}`}>
            Invoice {invoice.jobs.length > 1 ? "the jobs" : "the job"} again
          </LinkButton>
        )}
      </div>
    </Section>
  );
}
