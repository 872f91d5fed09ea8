import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { JobView } from "@/lib/data/jobs/get";
import { cancel } from "../actions";

/** Ends a job that will not be done. It cannot be taken back, so it asks for a reason. */
export function CancelJob({ slug, job }: { slug: string; job: JobView }) {
  return (
    <Dialog trigger="Cancel this job" triggerTone="danger" title={`Cancel job ${job.number}`}>
      <Form action={cancel} shop={slug} hidden={{ jobId: String(job.id), version: String(job.version) }}>
        <p className="mb-3">
          Reserved parts and coming bookings become free, and the customer is told of the bookings. A deposit
          stands under Today until it is given back. This cannot be taken back.
        </p>
        <TextField name="reason" label="Why" required maxLength={500} />
        <SubmitButton tone="danger">Cancel the job</SubmitButton>
      </Form>
    </Dialog>
  );
}
