import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { QuotePage } from "@/lib/data/quotes/get";
import { NoLetter } from "../../_letters/NoLetter";
import { remind } from "../actions";
import { CallDay } from "./CallDay";

/** Keeping after a quote that is out: a day to call, and a reminder by mail. */
export function CallForms({ slug, quote, maySend }: { slug: string; quote: QuotePage; maySend: boolean }) {
  const hidden = { id: String(quote.id), version: String(quote.version) };
  const { customer } = quote;
  return (
    <div className="mb-5 flex flex-wrap items-center gap-3 print:hidden">
      <CallDay slug={slug} hidden={hidden} on={quote.callOn ?? ""} locale={quote.terms.locale} />
      {maySend && quote.withheld && <NoLetter withheld={quote.withheld} customer={customer} />}
      {maySend && !quote.withheld && (
        <Dialog trigger="Remind by mail" title="Remind by mail">
          <Form action={remind} shop={slug} hidden={hidden} label="Reminder">
            <p className="mb-3">
              {`To ${customer.email}, with a further link to the quote. Links sent before go on working.`}
            </p>
            <TextArea name="words" label="In your own words (may stay empty)" rows={3} maxLength={1000} />
            <SubmitButton>Send the reminder</SubmitButton>
          </Form>
        </Dialog>
      )}
      {customer.phone && (
        <a
          href={`tel:${customer.phone.replace(/[^+\d]/g, "")}`}
          className="inline-flex min-h-11 items-center font-mono text-brass underline underline-offset-4 pointer-coarse:min-h-12"
        >
          {customer.phone}
        </a>
      )}
    </div>
  );
}
