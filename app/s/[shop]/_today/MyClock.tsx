import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { jobsToSwitchTo, OpenBreak } from "@/lib/data/jobs/time/breaks";
import type { RunningEntry } from "@/lib/data/jobs/time/list";
import { start, stop } from "../jobs/actions";
import { GoOn, TakeBreak } from "../jobs/OwnBreak";

interface MyClockProps {
  running: readonly RunningEntry[];
  breaks: readonly OpenBreak[];
  others: Awaited<ReturnType<typeof jobsToSwitchTo>>;
  slug: string;
}

/** One's own time in one tap: stop, a break, on with it, or over to another job. */
export function MyClock({ running, breaks, others, slug }: MyClockProps) {
  const on = running.find((entry) => entry.own);
  const paused = on ? undefined : breaks.find((one) => one.own);
  if (!on && !paused) return null;
  return (
    <section aria-label="My time" className="mt-2 flex flex-wrap items-center gap-x-4 gap-y-2">
      {on && (
        <>
          <Form action={stop} shop={slug} hidden={{ entryId: String(on.id) }} label="Stop my time">
            <SubmitButton tone="second">Stop</SubmitButton>
          </Form>
          <TakeBreak slug={slug} entryId={on.id} />
        </>
      )}
      {paused && <GoOn slug={slug} of={paused} />}
      {others
        .filter((job) => job.id !== paused?.jobId)
        .map((job) => (
          <Form
            key={job.id}
            action={start}
            shop={slug}
            hidden={{ jobId: String(job.id) }}
            label={`Switch to job ${job.number}, ${job.title}`}
          >
            <SubmitButton tone="quiet">Switch to job {job.number}</SubmitButton>
          </Form>
        ))}
      <Link
        href={`/s/${slug}/hours`}
        className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
      >
        My hours
      </Link>
    </section>
  );
}
