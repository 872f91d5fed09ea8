import { dateText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import type { DayView } from "@/lib/data/bookings/list";
import { timeText } from "@/lib/data/bookings/words";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { loadText } from "./WeekRule";

export interface WeekProps {
  shop: string;
  view: DayView;
  hrefOf: (day: string) => string;
}

/** The week as a list of days, each with what it holds. */
export function Week({ shop, view, hrefOf }: WeekProps) {
  return (
    <ol>
      {view.days.map((one) => (
        <li
          key={one.day}
          aria-current={one.day === view.day ? "date" : undefined}
          className="grid gap-x-5 gap-y-1 border-hair border-b py-2 aria-[current=date]:border-l-4 aria-[current=date]:border-l-brass-fill aria-[current=date]:pl-3 sm:grid-cols-[14rem_minmax(0,1fr)]"
        >
          <Link href={hrefOf(one.day)} className="inline-flex min-h-6 items-center pointer-coarse:min-h-12">
            {dateText(one.day, view.locale, "weekday")}
            {one.day === view.today && <span className="ml-2 text-soft">today</span>}
          </Link>
          <div className="min-w-0">
            <p className="text-soft md:hidden">{loadText(one.load)}</p>
            {one.closed !== null && <p className="text-soft">Closed: {one.closed}</p>}
            {one.away.length > 0 && <p className="text-soft">Away: {one.away.join(", ")}</p>}
            {one.bookings.length === 0 && one.closed === null && <p className="text-soft">nothing booked</p>}
            {one.bookings.map((row) => (
              <p key={row.id}>
                <span className="font-mono">
                  {dayOf(row.startsAt.getTime(), view.zone) === one.day
                    ? timeText(row.startsAt, view.zone)
                    : "goes on"}
                </span>{" "}
                <Link
                  href={`/s/${shop}/bookings/${row.id}`}
                  className="inline-flex min-h-6 items-center pointer-coarse:min-h-12"
                >
                  {row.job ? `${row.of.name} ${row.of.model}` : `${row.of.customer}, ${row.of.model}`}
                </Link>
                <span className="text-soft">
                  {" "}
                  · {row.bay.name} · {row.staff.name}
                </span>
              </p>
            ))}
          </div>
        </li>
      ))}
    </ol>
  );
}
