import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { JobDraft } from "@/lib/data/invoices/together";
import type { Basis } from "@/lib/domain/invoices/printed";
import { BASIS_WORDS } from "@/lib/schemas/invoices";
import { addToDraft } from "./actions";

interface AddToDraftsProps {
  slug: string;
  jobId: number;
  basis: Basis;
  drafts: readonly JobDraft[];
  className?: string;
}

/** Puts a job on an invoice of the same customer that is still a draft. */
export function AddToDrafts({ slug, jobId, basis, drafts, className }: AddToDraftsProps) {
  return drafts.map((draft) => (
    <Form
      key={draft.id}
      action={addToDraft}
      shop={slug}
      hidden={{ id: String(draft.id), version: String(draft.version), jobId: String(jobId), basis }}
      label={`Add to the draft of ${jobsOf(draft)}`}
      className={className}
    >
      <SubmitButton tone="second">
        Add {BASIS_WORDS[basis]} to the invoice draft of {jobsOf(draft)}
      </SubmitButton>
    </Form>
  ));
}

const jobsOf = ({ jobs }: JobDraft) => `${jobs.length > 1 ? "jobs" : "job"} ${jobs.join(", ")}`;
