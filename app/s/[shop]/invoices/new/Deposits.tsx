import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { InvoicePreview } from "@/lib/data/invoices/get";
import { askForDeposit, giveBack, takeDeposit } from "../actions";
import { MoneyForm } from "../MoneyForm";
import { PaymentList } from "../PaymentList";

interface DepositsProps {
  slug: string;
  view: InvoicePreview;
  settings: { currency: string; locale: string; cashRoundingMinor: number };
  mayPay: boolean;
}

/** Money of the job before its invoice, in and out. */
export function Deposits({ slug, view, settings, mayPay }: DepositsProps) {
  const { currency, locale, cashRoundingMinor } = settings;
  const { job, live } = view;
  const agreed = view.fixed.doc?.grossMinor ?? 0;
  const mayDeposit =
    mayPay && live?.state !== "issued" && job.state !== "cancelled" && agreed > view.depositLeftMinor;
  const asked =
    live?.state !== "issued" && job.state !== "cancelled" && view.depositAskedMinor > view.depositLeftMinor;
  const form = { shop: slug, currency, locale, stepMinor: cashRoundingMinor, today: view.payOn };
  return (
    <Section title="Paid before the invoice">
      {view.payments.length > 0 ? (
        <PaymentList
          payments={view.payments}
          currency={currency}
          locale={locale}
          papers={{ slug, mayMail: mayPay }}
          bounces={mayPay ? { slug, today: view.payOn } : undefined}
        />
      ) : (
        <p className="text-soft">Nothing yet.</p>
      )}
      {view.depositAskedMinor > 0 && (
        <p className="mt-2">
          The quote asks for a deposit of{" "}
          <Money minor={view.depositAskedMinor} currency={currency} locale={locale} code />.
        </p>
      )}
      <div className="mt-3 flex flex-wrap gap-2.5">
        {asked && (
          <Dialog trigger="Ask for the deposit" title="Deposit request">
            <p className="mb-4">
              <LinkButton href={`/api/s/${slug}/jobs/${job.id}/deposit`} download>
                PDF
              </LinkButton>
            </p>
            {mayPay && (
              <Form
                action={askForDeposit}
                shop={slug}
                hidden={{ jobId: String(job.id) }}
                label="Ask for the deposit"
              >
                <p className="mb-3 max-w-prose">
                  A mail with it goes to the customer: how much, how to pay it, and a link to their page.
                </p>
                <SubmitButton>Write the mail</SubmitButton>
              </Form>
            )}
          </Dialog>
        )}
        {mayDeposit && (
          <Dialog trigger="Record a deposit" title="Deposit">
            <MoneyForm
              {...form}
              action={takeDeposit}
              hidden={{ jobId: String(job.id) }}
              mostMinor={agreed - view.depositLeftMinor}
              amountMinor={Math.min(
                agreed - view.depositLeftMinor,
                Math.max(0, view.depositAskedMinor - view.depositLeftMinor) || agreed - view.depositLeftMinor,
              )}
              submit="Record the deposit"
              twoWays
              reference="Reference, if any"
            />
          </Dialog>
        )}
        {mayPay && view.depositLeftMinor > 0 && live?.state !== "issued" && (
          <Dialog trigger="Give money back" title="Give money back">
            <MoneyForm
              {...form}
              action={giveBack}
              hidden={{ jobId: String(job.id) }}
              mostMinor={view.depositLeftMinor}
              amountMinor={view.depositLeftMinor}
              submit="Record as given back"
              reference="Why it goes back"
            />
          </Dialog>
        )}
      </div>
    </Section>
  );
}
