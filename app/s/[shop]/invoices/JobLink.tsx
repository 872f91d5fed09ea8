import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Withheld } from "@/lib/data/mail/letters";
import { NoLetter } from "../_letters/NoLetter";
import { linkJob, sayReady } from "./actions";

interface Props {
  slug: string;
  jobId: number;
  customer: { readonly name: string; readonly phone: string; readonly email: string };
  /** Whether the bike is ready, so that it can be said by mail, and why it cannot. */
  ready: { readonly withheld: Withheld | null } | null;
}

/** A link by which the customer follows the job: shown once, since only its hash is kept. Mailed with the word that it is ready. */
export function JobLink({ slug, jobId, customer, ready }: Props) {
  const hidden = { jobId: String(jobId) };
  const mails = ready !== null && ready.withheld === null;
  return (
    <Dialog trigger="Link for the customer" title="Link for the customer">
      {ready?.withheld && (
        <div className="mb-5">
          <NoLetter withheld={ready.withheld} customer={customer} />
        </div>
      )}
      {mails && (
        <Form action={sayReady} shop={slug} hidden={hidden} label="Say that it is ready" className="mb-5">
          <p className="mb-3">
            A mail says to {customer.email} that the bike is ready, with your hours and the link.
          </p>
          <SubmitButton>Say that it is ready</SubmitButton>
        </Form>
      )}
      <Form action={linkJob} shop={slug} hidden={hidden} label="Make a link">
        <p className="mb-3 max-w-prose">
          With it the customer sees what was agreed, how far the job is, and what is to pay: no people, no
          minutes, no notes.
        </p>
        <ShownLink before={<p className="mb-2">Copy it now: it is shown once.</p>} />
        <SubmitButton tone={mails ? "second" : "main"}>Make a link</SubmitButton>
      </Form>
    </Dialog>
  );
}
