import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import type { RunningEntry } from "@/lib/data/jobs/time/list";

interface OnNowProps {
  running: readonly RunningEntry[];
  base: string;
  locale: string;
  zone: string;
}

/** Who is on what. */
export function OnNow({ running, base, locale, zone }: OnNowProps) {
  const fresh = running.filter((entry) => !entry.forgotten);
  if (fresh.length === 0) return null;
  return (
    <ul className="mt-2 flex flex-wrap gap-x-8 gap-y-1 text-[15px]">
      {fresh.map((entry) => (
        <li key={entry.id}>
          <strong>{entry.staff}</strong> is on{" "}
          <Link href={`${base}/jobs/${entry.jobId}/card`} className="underline underline-offset-4">
            job {entry.jobNumber}
          </Link>
          {entry.step && `, ${entry.step},`} <span className="text-soft">since</span>{" "}
          <span className="font-mono">
            <Instant at={entry.startedAt} locale={locale} zone={zone} look="time" />
          </span>
        </li>
      ))}
    </ul>
  );
}
