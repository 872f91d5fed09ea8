import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { CheckField } from "@/app/_ui/CheckField";
import type { QuoteSheet } from "@/lib/data/quotes/get";
import { acceptByDesk, decline, revise } from "../actions";

/** What the desk can do with a quote in its present state, besides sending it. */
export function Acts({ slug, quote }: { slug: string; quote: QuoteSheet }) {
  const hidden = { id: String(quote.id), version: String(quote.version) };
  if (quote.state === "draft")
    return (
      <LinkButton href={`/s/${slug}/quotes/${quote.id}/compare`}>What if</LinkButton>
    );
  if (quote.state === "accepted")
    return quote.job && <LinkButton href={`/s/${slug}/jobs/${quote.job.id}`} tone="main">{`To job ${quote.job.number}`}</LinkButton>;
  if (quote.state === "replaced") return null;
  return (
    <>
      <Form action={revise} shop={slug} hidden={hidden} label="Revise">
        <SubmitButton tone="second" className="w-full">
          Revise
        </SubmitButton>
      </Form>
      {quote.state === "sent" && (
        <>
          <Dialog trigger="They said no" title={`Quote ${quote.number} declined`}>
            <Form action={decline} shop={slug} hidden={hidden} label="Declined">
              <TextArea name="reason" label="Why, in their words" rows={3} />
              <SubmitButton>Write it down</SubmitButton>
            </Form>
          </Dialog>
          <Dialog trigger="They said yes" title={`Yes to quote ${quote.number}`}>
            <YesForm slug={slug} quote={quote} />
          </Dialog>
        </>
      )}
    </>
  );
}

function YesForm({ slug, quote }: { slug: string; quote: QuoteSheet }) {
  return (
    <Form
      action={acceptByDesk}
      shop={slug}
      hidden={{ revisionId: String(quote.revisionId), shownHash: quote.hash ?? "" }}
      label="Accepted by the customer"
    >
      <TextField name="typedName" label="Who said yes" initial={quote.customer.name} required />
      <TextField name="how" label="How" hint="By phone on Tuesday, at the desk, by mail." required />
      {(quote.frozen?.acknowledgements.length ?? 0) > 0 && (
        <fieldset className="mb-3">
          <legend className="font-semibold text-[15px]">Read to them, and understood</legend>
          {quote.frozen?.acknowledgements.map((a) => (
            <CheckField key={a.key} name="acknowledgements[]" value={a.key} label={a.text} />
          ))}
        </fieldset>
      )}
      <SubmitButton>Accept for them and make the job</SubmitButton>
    </Form>
  );
}
