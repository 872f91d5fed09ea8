import { PrintedLines } from "@/app/_documents/PrintedLines";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Drafted } from "@/lib/data/invoices/get";
import type { Basis } from "@/lib/domain/invoices/printed";
import { makeDraft } from "../actions";

/** One way of invoicing: its lines and total, or why it cannot be. */
export function BasisChoice({
  title,
  basis,
  drafted,
  slug,
  jobId,
  may,
}: {
  title: string;
  basis: Basis;
  drafted: Drafted;
  slug: string;
  jobId: number;
  may: boolean;
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
          <SubmitButton tone={basis === "fixed" ? "main" : "second"}>
            Draft it {basis === "fixed" ? "as quoted" : "as worked"}
          </SubmitButton>
        </Form>
      )}
    </Section>
  );
}
