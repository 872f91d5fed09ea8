import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import type { OpenBreak } from "@/lib/data/jobs/time/breaks";
import type { RunningEntry } from "@/lib/data/jobs/time/list";

interface OnNowProps {
  running: readonly RunningEntry[];
  breaks: readonly OpenBreak[];
  base: string;
  locale: string;
  zone: string;
}

/** Who is on what, and who is on a break. */
export function OnNow({ running, breaks, base, locale, zone }: OnNowProps) {
  const fresh = running.filter((entry) => !entry.forgotten);
  if (fresh.length === 0 && breaks.length === 0) return null;
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
      {breaks.map((one) => (
        <li key={`break${one.id}`}>
          <strong>{one.staff}</strong> is on a break from job {one.jobNumber}{" "}
          <span className="text-soft">since</span>{" "}
          <span className="font-mono">
            <Instant at={one.startedAt} locale={locale} zone={zone} look="time" />
          </span>
        </li>
      ))}
    </ul>
  );
}
