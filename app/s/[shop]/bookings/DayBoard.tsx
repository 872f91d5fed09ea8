import type { BlockTone } from "@/app/_ui/DayRule";
import { dateText } from "@/app/_ui/format";
import { blockOf, type DayView } from "@/lib/data/bookings/list";
import { timeText } from "@/lib/data/bookings/words";
import { dayOf, minuteOfDay } from "@/lib/domain/schedule/localTime";
import { Board } from "./Board";
import type { BoardBlock } from "./boardTypes";

type Booked = DayView["bookings"][number];

function toneOf(row: Booked): BlockTone {
  const state = row.job?.state ?? "";
  if (row.state === "done" || ["ready", "invoiced", "closed"].includes(state)) return "done";
  return state === "inWork" || state === "ride" ? "now" : "planned";
}

function labelOf(row: Booked, view: DayView): string {
  const arrives =
    !row.hereAt && row.dropOffAt && dayOf(row.dropOffAt.getTime(), view.zone) === view.day
      ? `, arrives ${timeText(row.dropOffAt, view.zone)}`
      : "";
  const what = row.job ? `${row.job.number} ${row.of.model}` : `${row.of.customer}, ${row.of.model}`;
  const on = view.on.filter((one) => one.jobId === row.job?.id);
  const rests = on.length > 0 && on.every((one) => one.onBreak) ? ", on a break" : "";
  return `${what}${arrives}${rests}`;
}

/** Where a booking stands on the day that it begins on; null where it may not be moved from there. */
function placedOf(row: Booked, view: DayView): BoardBlock["placed"] {
  const startsAt = row.startsAt.getTime();
  const here = dayOf(startsAt, view.zone) === view.day;
  if (!here || row.state !== "held" || row.minutes === 0) return null;
  const { minutes, bay, staff } = row;
  return { day: view.day, from: minuteOfDay(startsAt, view.zone), minutes, bayId: bay.id, staffId: staff.id };
}

export interface DayBoardProps {
  shop: string;
  view: DayView;
  /** Only this bay, only this person. */
  place: { readonly bay?: number | undefined; readonly person?: number | undefined };
  mayMove: boolean;
}

/** The day, bays and people as rows ruled in hours. */
export function DayBoard({ shop, view, place, mayMove }: DayBoardProps) {
  const { rule } = view;
  return (
    <Board
      key={view.day}
      shop={shop}
      title={`Bays and people on ${dateText(view.day, view.locale, "weekday")}`}
      day={view.day}
      locale={view.locale}
      from={rule.from}
      to={rule.to}
      now={view.nowMinute}
      bays={view.bays.filter(({ id }) => place.bay === undefined || id === place.bay)}
      people={view.people.filter(({ id }) => place.person === undefined || id === place.person)}
      blocks={view.bookings.map((row) => {
        const { from, to } = blockOf(row, view.day, view.zone);
        return {
          id: row.id,
          version: row.version,
          name: row.job ? row.of.name : row.of.customer,
          label: labelOf(row, view),
          tone: toneOf(row),
          bayId: row.bay.id,
          staffId: row.staff.id,
          from: Math.max(from, rule.from),
          to: Math.min(to, rule.to),
          placed: mayMove ? placedOf(row, view) : null,
        };
      })}
    />
  );
}
