import { PrintedLines } from "@/app/_documents/PrintedLines";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Drafted, InvoicePreview } from "@/lib/data/invoices/get";
import type { Basis } from "@/lib/domain/invoices/printed";
import { AddToDrafts } from "../AddToDrafts";
import { makeDraft } from "../actions";

/** One way of invoicing: its lines and total, or why it cannot be. */
export function BasisChoice({
  title,
  basis,
  drafted,
  slug,
  jobId,
  may,
  joinable,
  drafts,
}: {
  title: string;
  basis: Basis;
  drafted: Drafted;
  slug: string;
  jobId: number;
  may: boolean;
  /** Jobs of the same customer that can go on the same invoice. */
  joinable: InvoicePreview["joinable"];
  /** Drafts of the same customer that the job can be added to. */
  drafts: InvoicePreview["drafts"];
}) {
  return (
    <Section title={title}>
      {drafted.doc ? (
        <PrintedLines doc={drafted.doc} />
      ) : (
        <Note title={drafted.refused?.message}>{drafted.refused?.remedy}</Note>
      )}
      {may && drafted.doc && (
        <Form
          action={makeDraft}
          shop={slug}
          hidden={{ jobId: String(jobId), basis }}
          className="mt-3"
          label={title}
        >
          {joinable.length > 0 && (
            <fieldset className="mb-3 min-w-0">
              <legend className="mb-1 font-semibold text-[15px]">Together with, on one invoice</legend>
              {joinable.map((job) => (
                <CheckField
                  key={job.id}
                  name="also[]"
                  value={String(job.id)}
                  label={`Job ${job.number}: ${job.title}`}
                  ruled
                />
              ))}
            </fieldset>
          )}
          <SubmitButton tone={basis === "fixed" ? "main" : "second"}>
            Draft it {basis === "fixed" ? "as quoted" : "as worked"}
          </SubmitButton>
        </Form>
      )}
      {may && drafted.doc && (
        <AddToDrafts slug={slug} jobId={jobId} basis={basis} drafts={drafts} className="mt-3" />
      )}
    </Section>
  );
}
