import { distanceText } from "@/app/_ui/distanceText";
import { Facts } from "@/app/_ui/Facts";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import type { JobView } from "@/lib/data/jobs/get";

const link = "text-brass underline underline-offset-4";

/** Whose bike it is, which, from which quote, and how it came in. */
export function WhoAndWhat({
  job,
  base,
  place: { locale, zone, units },
  mayTakeIn,
  arrival,
}: {
  job: JobView;
  base: string;
  place: { readonly locale: string; readonly zone: string; readonly units: string };
  /** Whether the person may record an intake, and the job is not done yet. */
  mayTakeIn: boolean;
  /** The record of how the bike came; null where there is none. */
  arrival: number | null;
}) {
  return (
    <Facts
      rows={[
        {
          name: "Customer",
          value: (
            <Link className={link} href={`${base}/customers/${job.customer.id}`}>
              {job.customer.name}
            </Link>
          ),
        },
        ...(job.customer.phone
          ? [{ name: "Phone", value: <a href={`tel:${job.customer.phone}`}>{job.customer.phone}</a> }]
          : []),
        {
          name: "Bike",
          value: (
            <Link className={link} href={`${base}/bikes/${job.bike.id}`}>
              {job.bike.name}
            </Link>
          ),
        },
        ...(mayTakeIn
          ? [
              {
                name: "Intake",
                value: (
                  <Link className={link} href={`${base}/bikes/${job.bike.id}/intakes/new?job=${job.id}`}>
                    Record what it does
                  </Link>
                ),
              },
            ]
          : []),
        ...(arrival !== null || mayTakeIn
          ? [
              {
                name: "How it came",
                value: (
                  <Link className={link} href={`${base}/arrivals/${arrival ?? `new?job=${job.id}`}`}>
                    {arrival === null ? "Record fuel, keys and damage" : "See the record"}
                  </Link>
                ),
              },
            ]
          : []),
        ...(job.bike.complaint ? [{ name: "Complaint", value: job.bike.complaint }] : []),
        {
          name: "Quote",
          value: (
            <Link className={link} href={`${base}/quotes/${job.quote.id}`}>
              {job.quote.number}
            </Link>
          ),
        },
        ...(job.arrivedAt
          ? [
              {
                name: "Arrived",
                value: <Instant at={job.arrivedAt.toISOString()} locale={locale} zone={zone} />,
              },
            ]
          : []),
        ...(job.odometerKm === null
          ? []
          : [{ name: "Odometer in", value: distanceText(job.odometerKm, units, locale), mono: true }]),
        ...(job.notes ? [{ name: "Notes", value: job.notes }] : []),
      ]}
    />
  );
}
