import { dateText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import type { JobView } from "@/lib/data/jobs/get";
import { WAIT_WORDS } from "@/lib/schemas/waits";

/** What the job waits for now, and until when. */
export function JobWaits({ job, locale }: { job: JobView; locale: string }) {
  return job.waits.map((wait) => (
    <Note
      key={wait.id}
      title={`It waits for ${WAIT_WORDS[wait.reason]}${wait.untilOn ? `, until ${dateText(wait.untilOn, locale)}` : ""}.`}
    >
      {wait.note}
    </Note>
  ));
}

/** What was written at the steps of its card. */
export function JobNotes({ job }: { job: JobView }) {
  const noted = job.steps.filter((step) => step.notes.length > 0);
  if (noted.length === 0) return null;
  return (
    <ul aria-label="Notes at the steps" className="mt-3">
      {noted.map((step) => (
        <li key={step.id} className="border-hair border-b py-2">
          <span className="text-soft">At {step.name}:</span>
          {step.notes.map((note) => (
            <p key={note.id} className="whitespace-pre-line">
              {note.text}
            </p>
          ))}
        </li>
      ))}
    </ul>
  );
}
