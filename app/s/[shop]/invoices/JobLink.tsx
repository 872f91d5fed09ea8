import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { linkJob } from "./actions";

/** A link by which the customer follows the job: shown once, since only its hash is kept. */
export function JobLink({ slug, jobId }: { slug: string; jobId: number }) {
  return (
    <Dialog trigger="Link for the customer" title="Link for the customer">
      <Form action={linkJob} shop={slug} hidden={{ jobId: String(jobId) }} label="Make a link">
        <p className="mb-3 max-w-prose">
          With it the customer sees how far the job is: no people, no minutes, no notes.
        </p>
        <Shown name="link" before={<p className="mb-2">Copy it now: it is shown once.</p>} />
        <SubmitButton>Make a link</SubmitButton>
      </Form>
    </Dialog>
  );
}
