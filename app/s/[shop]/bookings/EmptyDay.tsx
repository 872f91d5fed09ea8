import { Empty } from "@/app/_ui/Empty";
import { dateText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import type { DayView } from "@/lib/data/bookings/list";
import { loadText } from "./WeekRule";

interface EmptyDayProps {
  view: DayView;
  hrefOf: (day: string) => string;
  /** Only one bay or one person is looked at. */
  narrowed: boolean;
  mayBook: boolean;
}

/** A day without bookings: that it is empty, what is free, and what can be done. Rules with nothing on them say less. */
export function EmptyDay({ view, hrefOf, narrowed, mayBook }: EmptyDayProps) {
  const next = view.days.find((one) => one.day > view.day && one.bookings.length > 0);
  const load = view.load && view.closed === null && !narrowed ? `${loadText(view.load)}.` : "";
  return (
    <Empty
      title={narrowed ? "Nothing is booked here on this day." : "Nothing is booked on this day."}
      text={[
        load.charAt(0).toUpperCase() + load.slice(1),
        mayBook && "“Book a job” above offers the first times that work.",
      ]
        .filter(Boolean)
        .join(" ")}
      action={
        next && (
          <LinkButton href={hrefOf(next.day)}>
            Next booked: {dateText(next.day, view.locale, "weekday")}
          </LinkButton>
        )
      }
    />
  );
}
