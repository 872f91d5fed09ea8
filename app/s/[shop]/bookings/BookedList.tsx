import { Link } from "@/app/_ui/Link";
import { State } from "@/app/_ui/State";
import { type BookedRow, blockOf, type DayView } from "@/lib/data/bookings/list";
import { timeText, whenText } from "@/lib/data/bookings/words";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { BOOKING_WORDS } from "@/lib/schemas/bookings";

export interface BookedListProps {
  shop: string;
  view: DayView;
  bookings: readonly BookedRow[];
}

/** The day's bookings one by one: when, which job, who, and when the bike comes and goes. */
export function BookedList({ shop, view, bookings }: BookedListProps) {
  const place = { zone: view.zone, locale: view.locale };
  const when = (at: Date) =>
    dayOf(at.getTime(), view.zone) === view.day ? timeText(at, view.zone) : whenText(at, place);
  const clock = (row: BookedRow) => {
    const block = blockOf(row, view.day, view.zone);
    const from = block.from === 0 ? "from the day before" : timeText(row.startsAt, view.zone);
    return `${from} – ${block.to === 1440 ? "over night" : timeText(row.endsAt, view.zone)}`;
  };
  return (
    <ul>
      {bookings.map((row) => (
        <li
          key={row.id}
          id={`booking-${row.id}`}
          className="grid gap-x-5 gap-y-0.5 border-hair border-b py-2.5 sm:grid-cols-[11rem_minmax(0,1fr)_auto]"
        >
          <span className="font-mono">{clock(row)}</span>
          <span className="min-w-0">
            <Link
              href={`/s/${shop}/bookings/${row.id}`}
              className="inline-flex min-h-6 items-center pointer-coarse:min-h-12 font-semibold"
            >
              {row.of.name}
            </Link>{" "}
            {row.of.bike}, {row.of.customer}
            <span className="block text-[14px] text-soft">
              {[
                row.of.title,
                row.bay.name,
                row.staff.name,
                row.dropOffAt && !row.hereAt && `comes ${when(row.dropOffAt)}`,
                row.pickUpAt && `fetched ${when(row.pickUpAt)}`,
                row.note,
                ...view.on
                  .filter((one) => one.jobId === row.job?.id)
                  .map((one) => `${one.name} is ${one.onBreak ? "on a break from it" : "on it now"}`),
              ]
                .filter(Boolean)
                .join(" · ")}
            </span>
          </span>
          {row.state === "held" && row.hereAt ? (
            <State shape="square" tone="pine">
              bike is here
            </State>
          ) : (
            <State shape={BOOKING_WORDS[row.state].shape}>{BOOKING_WORDS[row.state].word}</State>
          )}
        </li>
      ))}
    </ul>
  );
}
