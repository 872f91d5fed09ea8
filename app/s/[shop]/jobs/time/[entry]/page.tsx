import { notFound } from "next/navigation";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getTimeEntry } from "@/lib/data/jobs/time/list";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { correct } from "../../actions";

export default async function TimePage({ params }: { params: Promise<{ shop: string; entry: string }> }) {
  const { shop: slug, entry: id } = await params;
  const shop = await open("job.work", slug);
  const entry = await getTimeEntry(shop, pathId(id));
  if (!entry) notFound();
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
        </Note>
      )}
      {may ? (
        <Form
          action={correct}
          shop={slug}
          hidden={{ entryId: String(entry.id), version: String(entry.version), jobId: String(entry.jobId) }}
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
          <SubmitButton>Save the times</SubmitButton>
        </Form>
      ) : (
        <p>
          {entry.closed
            ? "The job is closed: its time stays as it was invoiced."
            : "This is someone else's time: they or an owner correct it."}
        </p>
      )}
    </>
  );
}
