import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { dateText } from "@/app/_ui/format";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { QuotePage } from "@/lib/data/quotes/get";
import { NoLetter } from "../../_letters/NoLetter";
import { callOn, remind } from "../actions";

/** Keeping after a quote that is out: a day to call, and a reminder by mail. */
export function CallForms({ slug, quote, maySend }: { slug: string; quote: QuotePage; maySend: boolean }) {
  const hidden = { id: String(quote.id), version: String(quote.version) };
  const { customer } = quote;
  return (
    <div className="mb-5 flex flex-wrap items-center gap-3 print:hidden">
      <Dialog
        trigger={quote.callOn ? `Call on ${dateText(quote.callOn, quote.terms.locale)}` : "Set a day to call"}
        title="When to call about it"
      >
        <Form action={callOn} shop={slug} hidden={hidden} label="When to call">
          <DateField name="callOn" label="Day" initial={quote.callOn ?? ""} />
          <p className="mb-3 text-[14px] text-soft">
            Until that day it rests; leave it empty to take it off the list.
          </p>
          <SubmitButton>Save the day</SubmitButton>
        </Form>
      </Dialog>
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
