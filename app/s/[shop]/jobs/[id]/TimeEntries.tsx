import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import type { JobView } from "@/lib/data/jobs/get";

interface TimeEntriesProps {
  job: JobView;
  base: string;
  correct: boolean;
  zone: string;
  locale: string;
}

/** Every entry of time on the job, and the way to correct it. */
export function TimeEntries({ job, base, correct, zone, locale }: TimeEntriesProps) {
  if (job.timeEntries.length === 0) return null;
  return (
    <details className="mt-3">
      <summary className="min-h-6 font-semibold text-brass underline underline-offset-4 pointer-coarse:min-h-12">
        Time entries ({job.timeEntries.length})
      </summary>
      <ul className="mt-2">
        {job.timeEntries.map((entry) => (
          <li key={entry.id} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
            <span>
              {entry.staff.name}, <Instant at={entry.startedAt.toISOString()} locale={locale} zone={zone} />{" "}
              to{" "}
              {entry.endedAt ? (
                <Instant at={entry.endedAt.toISOString()} locale={locale} zone={zone} look="time" />
              ) : (
                "now"
              )}
              {entry.reason && <span className="text-soft"> · {entry.reason}</span>}
              {entry.corrections.map((one) => (
                <span key={one.id} className="block text-[14px] text-soft">
                  was <Instant at={one.fromStarted.toISOString()} locale={locale} zone={zone} /> to{" "}
                  {one.fromEnded ? (
                    <Instant at={one.fromEnded.toISOString()} locale={locale} zone={zone} look="time" />
                  ) : (
                    "running"
                  )}
                </span>
              ))}
            </span>
            {correct && (
              <Link
                href={`${base}/jobs/time/${entry.id}`}
                className="text-brass underline underline-offset-4"
              >
                Correct
              </Link>
            )}
          </li>
        ))}
      </ul>
      <p className="mt-2 text-[14px] text-soft">Hours are as recorded: overtime is not computed.</p>
    </details>
  );
}
