import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { linkJob, sayReady } from "./actions";

interface Props {
  slug: string;
  jobId: number;
  /** Where the customer can be told that the bike is ready; null where it is not, or no address is known. */
  readyTo: string | null;
}

/** A link by which the customer follows the job: shown once, since only its hash is kept. Mailed with the word that it is ready. */
export function JobLink({ slug, jobId, readyTo }: Props) {
  const hidden = { jobId: String(jobId) };
  return (
    <Dialog trigger="Link for the customer" title="Link for the customer">
      {readyTo && (
        <Form action={sayReady} shop={slug} hidden={hidden} label="Say that it is ready" className="mb-5">
          <p className="mb-3">
            A mail says to {readyTo} that the bike is ready, with your hours and the link.
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
        <SubmitButton tone={readyTo ? "second" : "main"}>Make a link</SubmitButton>
      </Form>
    </Dialog>
  );
}
