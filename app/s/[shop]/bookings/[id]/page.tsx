import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { minutesText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { standingArrival } from "@/lib/data/arrivals/get";
import { getBooking } from "@/lib/data/bookings/list";
import { jobsToGive } from "@/lib/data/bookings/times";
import { timeText, whenText } from "@/lib/data/bookings/words";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { BOOKING_WORDS, DID_NOT_COME } from "@/lib/schemas/bookings";
import { BookingForms } from "./BookingForms";
import { GiveItsJob } from "./GiveItsJob";
import { NotHere } from "./NotHere";

const TOUCH = "inline-flex min-h-6 items-center pointer-coarse:min-h-12";

export default async function BookingPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("booking.read", slug);
  const booking = await getBooking(shop, pathId(id));
  if (!booking) notFound();
  const { zone, job, of } = booking;
  const day = dayOf(booking.startsAt.getTime(), zone);
  const local = (at: Date | null) => (at ? `${dayOf(at.getTime(), zone)}T${timeText(at, zone)}` : "");
  const word = booking.noShowAt ? DID_NOT_COME : BOOKING_WORDS[booking.state];
  return (
    <>
      <PageHead
        of={shop.name}
        title={job ? `Booking of job ${job.number}` : `Booked in: ${of.customer}`}
        sub={job ? `${of.bike}, ${of.customer}` : of.bike}
        state={<State shape={word.shape}>{word.word}</State>}
        actions={
          <>
            <LinkButton href={`/s/${slug}/bookings?day=${day}`}>To the day</LinkButton>
            <Arrives shop={shop} booking={booking} />
          </>
        }
      />
      <div className="grid gap-x-8 lg:grid-cols-[minmax(0,2fr)_minmax(0,3fr)]">
        <Section title="As it stands">
          <Facts
            rows={[
              job
                ? {
                    name: "Job",
                    value: (
                      <Link href={`/s/${slug}/jobs/${job.id}`} className={TOUCH}>
                        {job.title}
                      </Link>
                    ),
                  }
                : { name: "What for", value: of.title },
              { name: "Starts", value: whenText(booking.startsAt, booking) },
              { name: "Ends", value: whenText(booking.endsAt, booking) },
              ...(booking.minutes
                ? [{ name: "Working time", value: minutesText(booking.minutes, "min", "h"), mono: true }]
                : []),
              { name: "Bay", value: booking.bay.name },
              { name: "Who", value: booking.staff.name },
              {
                name: "The bike comes",
                value: booking.dropOffAt ? whenText(booking.dropOffAt, booking) : "as the work starts",
              },
              ...(booking.expectedAt
                ? [{ name: "They called", value: `it comes ${whenText(booking.expectedAt, booking)}` }]
                : []),
              {
                name: "It is fetched",
                value: booking.pickUpAt ? whenText(booking.pickUpAt, booking) : "when the work ends",
              },
              ...(of.phone
                ? [
                    {
                      name: "Call",
                      value: (
                        <a className={TOUCH} href={`tel:${of.phone.replace(/\s/g, "")}`}>
                          {of.phone}
                        </a>
                      ),
                    },
                  ]
                : []),
              ...(booking.note ? [{ name: "Note", value: booking.note }] : []),
            ]}
          />
        </Section>
        <NotHere shop={shop} booking={booking} />
        {shop.can("booking.write") && booking.state === "held" && !job && (
          <GiveItsJob
            shop={slug}
            id={booking.id}
            version={booking.version}
            jobs={await jobsToGive(shop, booking.customer?.id ?? null)}
          />
        )}
        {shop.can("booking.write") && booking.state !== "done" && !booking.noShowAt && (
          <BookingForms
            shop={slug}
            id={booking.id}
            version={booking.version}
            cancelled={booking.state === "cancelled"}
            bays={booking.bays}
            people={booking.people}
            day={day}
            time={timeText(booking.startsAt, zone)}
            bayId={booking.bay.id}
            staffId={booking.staff.id}
            minutes={booking.minutes}
            dropOff={local(booking.dropOffAt)}
            pickUp={local(booking.pickUpAt)}
            note={booking.note}
          />
        )}
      </div>
    </>
  );
}

type Booking = NonNullable<Awaited<ReturnType<typeof getBooking>>>;

/** The bike of a booking comes in; once it is here, how it came. */
async function Arrives({ shop, booking }: { shop: OpenShop; booking: Booking }) {
  const { job } = booking;
  const base = `/s/${shop.slug}/arrivals`;
  const standing =
    (job && (await standingArrival(shop, { jobId: job.id }))) ??
    (await standingArrival(shop, { bookingId: booking.id }));
  if (standing !== null) return <LinkButton href={`${base}/${standing}`}>How it came</LinkButton>;
  const over = job !== null && !["waiting", "booked", "inWork", "ride"].includes(job.state);
  if (booking.state === "cancelled" || over || !shop.can("intake.write")) return null;
  return (
    <LinkButton tone="main" href={`${base}/new?booking=${booking.id}`}>
      The bike is here
    </LinkButton>
  );
}
