import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { JobView } from "@/lib/data/jobs/get";

interface JobBookingsProps {
  job: JobView;
  base: string;
  locale: string;
  zone: string;
  mayBook: boolean;
}

const LOOK = {
  held: { shape: "square", word: "held" },
  done: { shape: "filled", word: "done" },
  cancelled: { shape: "dash", word: "cancelled" },
} as const;

/** When the job has a bay and a person. */
export function JobBookings({ job, base, locale, zone, mayBook }: JobBookingsProps) {
  const more = mayBook && ["waiting", "booked", "inWork", "ride"].includes(job.state);
  if (job.bookings.length === 0 && !more) return null;
  return (
    <Section
      title="Bookings"
      aside={
        more && (
          <Link
            href={`${base}/bookings/new?job=${job.id}`}
            className="text-brass underline underline-offset-4"
          >
            Book a time
          </Link>
        )
      }
    >
      {job.bookings.length === 0 && <p className="text-soft">No time is booked yet.</p>}
      <ul>
        {job.bookings.map((booking) => {
          const look = LOOK[booking.state];
          return (
            <li key={booking.id} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
              <Link href={`${base}/bookings/${booking.id}`} className="underline-offset-4 hover:underline">
                <Instant at={booking.startsAt.toISOString()} locale={locale} zone={zone} /> to{" "}
                <Instant at={booking.endsAt.toISOString()} locale={locale} zone={zone} look="time" />,{" "}
                {booking.bay.name}, {booking.staff.name}
              </Link>
              <State shape={look.shape}>{look.word}</State>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
