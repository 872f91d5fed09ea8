import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { BASIS_WORDS } from "@/lib/schemas/invoices";
import { discard, issue, switchBasis } from "../actions";
import { EarlierDate } from "./EarlierDate";

export interface ActsProps {
  slug: string;
  invoice: InvoiceView;
  currency: string;
  locale: string;
  mayInvoice: boolean;
  mayPay: boolean;
}

/** Issuing cannot be undone, so it is asked for in words. */
export function DraftActs({ slug, invoice, locale, mayInvoice }: ActsProps) {
  const { doc } = invoice;
  if (!mayInvoice || !doc) return null;
  return (
    <Dialog trigger="Issue" triggerTone="main" title={`Issue the ${doc.title.toLowerCase()}?`}>
      <Form
        action={issue}
        shop={slug}
        hidden={{ ...seen(invoice), shownMinor: String(doc.grossMinor) }}
        label="Issue"
      >
        <p className="max-w-prose">
          It gets the next number, is dated today and is due <DateText date={doc.dueOn} locale={doc.locale} />
          . The total is{" "}
          <strong>
            <Money minor={doc.grossMinor} currency={doc.currency} locale={doc.locale} code />
          </strong>
          {doc.prepaidMinor !== 0 && (
            <>
              , of which <Money minor={doc.prepaidMinor} currency={doc.currency} locale={doc.locale} code />{" "}
              is paid
            </>
          )}
          .
        </p>
        <p className="mt-2 mb-4 max-w-prose">
          <strong>This cannot be undone.</strong> An issued invoice never changes; only a credit note takes it
          back.
        </p>
        <EarlierDate later={invoice.later} today={invoice.today} locale={locale} />
        <SubmitButton>Issue it for good</SubmitButton>
      </Form>
    </Dialog>
  );
}

const seen = (invoice: ActsProps["invoice"]) => ({
  id: String(invoice.id),
  version: String(invoice.version),
});

/** The lesser acts on a draft: the other basis, or away with it. */
export function DraftOtherwise({ slug, invoice, mayInvoice }: ActsProps) {
  if (!mayInvoice) return null;
  const other = invoice.basis === "fixed" ? "asWorked" : "fixed";
  return (
    <Section title="Otherwise">
      <div className="flex flex-wrap gap-2.5">
        <Form
          action={switchBasis}
          shop={slug}
          hidden={{ ...seen(invoice), basis: other }}
          label="Change the basis"
        >
          <SubmitButton tone="second">Charge {BASIS_WORDS[other]}</SubmitButton>
        </Form>
        <LinkButton href={`/s/${slug}/invoices/new?job=${invoice.jobId}`}>Compare both</LinkButton>
        <Form action={discard} shop={slug} hidden={seen(invoice)} label="Discard the draft">
          <SubmitButton tone="second">Discard the draft</SubmitButton>
        </Form>
      </div>
    </Section>
  );
}
