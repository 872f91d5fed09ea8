import { Instant } from "@/app/_ui/Instant";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { CardStep } from "@/lib/data/jobs/card";
import { noteStep } from "../../waitActions";
import { FoldedForm } from "./FoldedForm";

interface StepNotesProps {
  step: CardStep;
  jobId: number;
  slug: string;
  mayWrite: boolean;
  settings: { locale: string; zone: string };
}

/** What was written at a step, oldest first, and room for more. */
export function StepNotes({ step, jobId, slug, mayWrite, settings }: StepNotesProps) {
  return (
    <>
      {step.notes.length > 0 && (
        <ul aria-label="Notes at this step" className="mt-3">
          {step.notes.map((note) => (
            <li key={note.id} className="border-hair border-b py-2">
              <p className="whitespace-pre-line">{note.text}</p>
              <p className="text-[14px] text-soft">
                {note.by} <Instant at={note.at.toISOString()} {...settings} />
              </p>
            </li>
          ))}
        </ul>
      )}
      {mayWrite && (
        <FoldedForm
          title="Note something here"
          action={noteStep}
          shop={slug}
          hidden={{ stepId: String(step.id), ...keptAs("noteStep", jobId, "Note") }}
          keep={`note ${step.id}`}
        >
          <TextArea name="text" label="Note for whoever works here next" rows={3} maxLength={1000} required />
          <SubmitButton tone="second">Keep the note</SubmitButton>
        </FoldedForm>
      )}
    </>
  );
}
