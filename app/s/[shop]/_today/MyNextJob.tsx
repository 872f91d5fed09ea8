import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import type { myNextJob, WhyMine } from "@/lib/data/today/mine";

interface MyNextJobProps {
  mine: NonNullable<Awaited<ReturnType<typeof myNextJob>>>;
  base: string;
  locale: string;
  zone: string;
}

const WHY: Readonly<Record<WhyMine, string>> = {
  running: "your time runs on it",
  break: "you are on a break from it",
  handed: "handed over to you",
  booked: "booked",
};

/** The card that whoever looks goes on with, one tap away. */
export function MyNextJob({ mine, base, locale, zone }: MyNextJobProps) {
  const since = mine.startsAt
    ? `booked for ${instantText(mine.startsAt.toISOString(), locale, zone)}`
    : WHY[mine.why];
  return (
    <section
      aria-label="My next job"
      className="mb-5 flex flex-wrap items-center justify-between gap-x-6 gap-y-2 border-brass border-l-4 bg-brass-wash px-3.5 py-2"
    >
      <p className="min-w-0">
        <strong>Job {mine.number}</strong> {mine.bike} · {mine.title}
        <span className="block text-[15px] text-soft">{since}</span>
      </p>
      <LinkButton tone="main" href={`${base}/jobs/${mine.id}/card`} className="max-sm:w-full">
        My next job
      </LinkButton>
    </section>
  );
}
