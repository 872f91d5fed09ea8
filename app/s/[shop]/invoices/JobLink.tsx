import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { linkJob } from "./actions";

/** A link by which the customer follows the job: shown once, since only its hash is kept. */
export function JobLink({ slug, jobId }: { slug: string; jobId: number }) {
  return (
    <Dialog trigger="Link for the customer" title="Link for the customer">
      <Form action={linkJob} shop={slug} hidden={{ jobId: String(jobId) }} label="Make a link">
        <p className="mb-3 max-w-prose">
          With it the customer sees what was agreed, how far the job is, and what is to pay: no people, no
          minutes, no notes.
        </p>
        <ShownLink before={<p className="mb-2">Copy it now: it is shown once.</p>} />
        <SubmitButton>Make a link</SubmitButton>
      </Form>
    </Dialog>
  );
}
