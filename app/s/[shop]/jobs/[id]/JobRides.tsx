import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { JobView } from "@/lib/data/jobs/get";
import { settingDef } from "@/lib/domain/tuning/settings";

/** The job's test rides in short: when, whether all was good, what was changed after. */
export function JobRides({
  job,
  base,
  locale,
  zone,
}: {
  job: JobView;
  base: string;
  locale: string;
  zone: string;
}) {
  if (job.rides.length === 0) return null;
  return (
    <Section
      title="Test rides"
      aside={
        <Link href={`${base}/jobs/${job.id}/ride`} className="text-brass underline underline-offset-4">
          All that was felt
        </Link>
      }
    >
      <ul>
        {job.rides.map((ride) => {
          const change = ride.corrections[0];
          return (
            <li key={ride.id} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
              <span>
                <Instant at={ride.at.toISOString()} locale={locale} zone={zone} />
                {ride.note && <span className="text-soft"> · {ride.note}</span>}
              </span>
              {ride.good ? (
                <State shape="filled" tone="pine">
                  all good
                </State>
              ) : (
                <State shape="triangle" tone="brass">
                  {change
                    ? `${settingDef(change.setting)?.name ?? change.setting} ${change.fromValue} to ${change.toValue}`
                    : "not good yet"}
                </State>
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
