import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { BASIS_WORDS } from "@/lib/schemas/invoices";
import { discard, issue, switchBasis } from "../actions";

export interface ActsProps {
  slug: string;
  invoice: InvoiceView;
  currency: string;
  locale: string;
  mayInvoice: boolean;
  mayPay: boolean;
}

/** What can be done with a draft. Issuing cannot be undone, so it is asked for in words. */
export function DraftActs({ slug, invoice, mayInvoice }: ActsProps) {
  if (!mayInvoice) return null;
  const { doc } = invoice;
  const seen = { id: String(invoice.id), version: String(invoice.version) };
  const other = invoice.basis === "fixed" ? "asWorked" : "fixed";
  return (
    <>
      <Form action={discard} shop={slug} hidden={seen} label="Discard the draft">
        <SubmitButton tone="second">Discard</SubmitButton>
      </Form>
      <Form action={switchBasis} shop={slug} hidden={{ ...seen, basis: other }} label="Change the basis">
        <SubmitButton tone="second">Charge {BASIS_WORDS[other]}</SubmitButton>
      </Form>
      {doc && (
        <Dialog trigger="Issue" triggerTone="main" title={`Issue the ${doc.title.toLowerCase()}?`}>
          <Form
            action={issue}
            shop={slug}
            hidden={{ ...seen, shownMinor: String(doc.grossMinor) }}
            label="Issue"
          >
            <p className="max-w-prose">
              It gets the next number, is dated today and is due {doc.dueOn}. The total is{" "}
              <strong>
                <Money minor={doc.grossMinor} currency={doc.currency} locale={doc.locale} code />
              </strong>
              {doc.prepaidMinor !== 0 && (
                <>
                  , of which{" "}
                  <Money minor={doc.prepaidMinor} currency={doc.currency} locale={doc.locale} code /> is paid
                </>
              )}
              .
            </p>
            <p className="mt-2 mb-4 max-w-prose">
              <strong>This cannot be undone.</strong> An issued invoice never changes; only a credit note
              takes it back.
            </p>
            <SubmitButton>Issue it for good</SubmitButton>
          </Form>
        </Dialog>
      )}
    </>
  );
}
