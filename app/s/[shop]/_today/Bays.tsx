import { type DayBlock, DayRule } from "@/app/_ui/DayRule";
import type { TodayView } from "@/lib/data/today/today";
import { jobWord } from "@/lib/schemas/jobWords";

type Booking = TodayView["bookings"][number];

function blockOf(booking: Booking, now: number, base: string): DayBlock {
  const { job, of } = booking;
  if (!job)
    return {
      from: booking.from,
      to: booking.to,
      label: `${of.customer}, ${of.model}`,
      href: `${base}/bookings/${booking.id}`,
      tone: "planned",
    };
  const over = booking.state === "done" || ["ready", "invoiced", "closed"].includes(job.state);
  const said = job.state === "inWork" && !job.stopped ? "" : `, ${jobWord(job).word}`;
  return {
    from: booking.from,
    to: booking.to,
    label: `${job.number} ${job.model}${said}`,
    href: `${base}/jobs/${job.id}`,
    tone: job.stopped
      ? "caution"
      : over
        ? "done"
        : booking.from <= now && now < booking.to && job.arrivedAt
          ? "now"
          : "planned",
  };
}

/** The day of every bay, ruled in hours. */
export function Bays({ today, base }: { today: TodayView; base: string }) {
  const { bookings, bays, shift, nowMinute } = today;
  const from = Math.min(shift.from, ...bookings.map((one) => Math.floor(one.from / 60) * 60));
  const to = Math.max(shift.to, ...bookings.map((one) => Math.ceil(one.to / 60) * 60));
  return (
    <DayRule
      title="The day in the bays"
      description={`${bookings.length} bookings today in ${bays.length} bays.`}
      from={from}
      to={to}
      now={nowMinute}
      rows={bays.map((bay) => ({
        name: bay.name,
        blocks: bookings.filter((one) => one.bayId === bay.id).map((one) => blockOf(one, nowMinute, base)),
      }))}
    />
  );
}
