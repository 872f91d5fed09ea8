import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { credit, giveBack, linkInvoice, takePayment, writeToCustomer } from "../actions";
import { MoneyForm } from "../MoneyForm";
import type { ActsProps } from "./DraftActs";

/** What can be done with an issued document: show it, take money for it, take it back. */
export function IssuedActs({ slug, invoice, currency, locale, mayInvoice, mayPay }: ActsProps) {
  const { leftMinor, heldMinor, today } = invoice;
  const id = { id: String(invoice.id) };
  const stands = invoice.kind === "invoice" && invoice.creditedBy.length === 0;
  const credited = invoice.kind === "invoice" && !stands;
  const form = { shop: slug, currency, locale, stepMinor: invoice.cashRoundingMinor, today };
  return (
    <>
      {mayInvoice && (
        <Dialog trigger="To the customer" title="To the customer">
          {invoice.customer.email ? (
            <Form action={writeToCustomer} shop={slug} hidden={id} label="Mail the link">
              <p className="mb-3">A letter with the link goes to {invoice.customer.email}.</p>
              <SubmitButton>Write the letter</SubmitButton>
            </Form>
          ) : (
            <p className="mb-3">This customer has no mail address: hand over the link.</p>
          )}
          <Form action={linkInvoice} shop={slug} hidden={id} label="Make a link" className="mt-5">
            <Shown name="link" before={<p className="mb-2">Copy it now: it is shown once.</p>} />
            <SubmitButton tone="second">Make a link</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayInvoice && stands && (
        <Dialog trigger="Credit" title={`Credit invoice ${invoice.number} in full`}>
          <Form action={credit} shop={slug} hidden={id} label="Credit">
            <p className="mb-3 max-w-prose">
              A credit note with its own number takes the whole invoice back. The job can then be invoiced
              again; money paid stays with the job until it comes off the next invoice or goes back. This
              cannot be undone.
            </p>
            <TextArea
              name="reason"
              label="Why (printed on the credit note)"
              rows={2}
              maxLength={300}
              required
            />
            <SubmitButton tone="danger">Credit it for good</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayPay && (stands || credited) && heldMinor > 0 && (
        <Dialog trigger="Give money back" title="Give money back">
          {stands && leftMinor >= 0 && (
            <p className="mb-3 max-w-prose">The invoice stands, so what goes back is due again.</p>
          )}
          <MoneyForm
            {...form}
            action={giveBack}
            hidden={{ jobId: String(invoice.job.id) }}
            mostMinor={heldMinor}
            amountMinor={leftMinor < 0 ? 0 - leftMinor : heldMinor}
            submit="Record as given back"
            reference="Why it goes back"
          />
        </Dialog>
      )}
      {credited && mayInvoice && (
        <LinkButton href={`/s/${slug}/invoices/new?job=${invoice.job.id}`}>Invoice again</LinkButton>
      )}
      {mayPay && stands && leftMinor > 0 && (
        <Dialog trigger="Record a payment" triggerTone="main" title={`Payment for invoice ${invoice.number}`}>
          <MoneyForm
            {...form}
            action={takePayment}
            hidden={{ invoiceId: String(invoice.id) }}
            mostMinor={leftMinor}
            amountMinor={leftMinor}
            submit="Record the payment"
            reference="Reference, if any"
          />
        </Dialog>
      )}
    </>
  );
}
