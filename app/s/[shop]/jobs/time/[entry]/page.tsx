import { notFound } from "next/navigation";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getTimeEntry } from "@/lib/data/jobs/time/list";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { correct, pause, start, stop } from "../../actions";

interface Props {
  params: Promise<{ shop: string; entry: string }>;
  /** What the person wanted to start when the end of this was asked: a job, or a break. */
  searchParams: Promise<{ job?: string; step?: string; then?: string }>;
}

export default async function TimePage({ params, searchParams }: Props) {
  const [{ shop: slug, entry: id }, then] = await Promise.all([params, searchParams]);
  const shop = await open("job.work", slug);
  const entry = await getTimeEntry(shop, pathId(id));
  if (!entry) notFound();
  const clock = { locale: shop.settings.locale, zone: shop.settings.zone };
  // What was about to be started goes on once the end is said.
  const [thenJob, thenStep] = [askedId(then.job), askedId(then.step)];
  const goesOn = entry.forgotten && entry.own && thenJob !== undefined;
  const may = (entry.own || shop.can("time.correct")) && !entry.closed;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Correct time"
        sub={`${entry.staff}, job ${entry.jobNumber}${entry.step && `, ${entry.step}`}`}
      />
      {entry.forgotten && (
        <Note title="This ran on past the shift.">
          The end below is a proposal: enter when work really ended.
          {entry.own && " If you worked until now, one tap says so."}
        </Note>
      )}
      {entry.forgotten && entry.own && (
        <Worked
          slug={slug}
          entryId={entry.id}
          jobId={thenJob}
          stepId={thenStep}
          rests={then.then === "break"}
        />
      )}
      {may ? (
        <Form
          action={correct}
          shop={slug}
          hidden={{
            entryId: String(entry.id),
            version: String(entry.version),
            jobId: String(entry.jobId),
            ...(goesOn ? { thenJob: String(thenJob) } : {}),
            ...(goesOn && thenStep !== undefined ? { thenStep: String(thenStep) } : {}),
          }}
          label="Correct time"
          className="max-w-md"
        >
          <DateField
            kind="datetime-local"
            name="startedAt"
            label="Started"
            initial={entry.startedField}
            required
          />
          <DateField kind="datetime-local" name="endedAt" label="Stopped" initial={entry.endField} required />
          <TextField
            name="reason"
            label="Why it is changed"
            initial={entry.forgotten ? "Forgot to stop" : ""}
            required
            maxLength={300}
          />
          <SubmitButton>
            {goesOn ? "Save the times, and go on with the other" : "Save the times"}
          </SubmitButton>
        </Form>
      ) : (
        <p>
          {entry.closed
            ? "The job is closed: its time stays as it was invoiced."
            : "This is someone else's time: they or an owner correct it."}
        </p>
      )}
      {entry.corrections.length > 0 && (
        <Section title="Corrected before" className="mt-6">
          <ul>
            {entry.corrections.map((one) => (
              <li key={one.id} className="border-hair border-b py-2">
                It was <Instant at={one.fromStarted.toISOString()} {...clock} /> to{" "}
                {one.fromEnded ? <Instant at={one.fromEnded.toISOString()} {...clock} /> : "running"}, until{" "}
                <Instant at={one.at.toISOString()} {...clock} />
                <span className="text-soft"> · {one.reason}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}

/** Late work is honest work: it is ended now, and what the person was about to start is started. */
function Worked({
  slug,
  entryId,
  jobId,
  stepId,
  rests,
}: {
  slug: string;
  entryId: number;
  jobId: number | undefined;
  stepId: number | undefined;
  rests: boolean;
}) {
  if (jobId === undefined)
    return (
      <Form
        action={rests ? pause : stop}
        shop={slug}
        hidden={{ entryId: String(entryId), worked: "yes" }}
        label="Worked until now"
        className="mb-5"
      >
        <SubmitButton tone="second">
          {rests ? "I worked until now, and take a break" : "I worked until now"}
        </SubmitButton>
      </Form>
    );
  const step: Record<string, string> = stepId === undefined ? {} : { stepId: String(stepId) };
  return (
    <Form
      action={start}
      shop={slug}
      hidden={{ jobId: String(jobId), ...step, worked: "yes" }}
      label="Worked until now"
      className="mb-5"
    >
      <SubmitButton tone="second">I worked until now, and go on with the other</SubmitButton>
    </Form>
  );
}
