import { type BlockTone, DayRule } from "@/app/_ui/DayRule";
import { dateText } from "@/app/_ui/format";
import { type BookedRow, blockOf, type DayView } from "@/lib/data/bookings/list";
import { timeText } from "@/lib/data/bookings/words";
import { dayOf } from "@/lib/domain/schedule/localTime";

function toneOf(row: BookedRow): BlockTone {
  const state = row.job?.state ?? "";
  if (row.state === "done" || ["ready", "invoiced", "closed"].includes(state)) return "done";
  return state === "inWork" || state === "ride" ? "now" : "planned";
}

function labelOf(row: BookedRow, view: DayView): string {
  const arrives =
    !row.hereAt && row.dropOffAt && dayOf(row.dropOffAt.getTime(), view.zone) === view.day
      ? `, arrives ${timeText(row.dropOffAt, view.zone)}`
      : "";
  const what = row.job ? `${row.job.number} ${row.of.model}` : `${row.of.customer}, ${row.of.model}`;
  return `${what}${arrives} · ${row.staff.name}`;
}

export interface DayOfBaysProps {
  shop: string;
  view: DayView;
  /** Only this bay. */
  bay?: number | undefined;
}

/** The day, bays as rows ruled in hours. */
export function DayOfBays({ shop, view, bay }: DayOfBaysProps) {
  const bays = view.bays.filter((one) => bay === undefined || one.id === bay);
  return (
    <DayRule
      title={`Bays on ${dateText(view.day, view.locale, "weekday")}`}
      description={`${view.bookings.length} bookings in ${bays.length} bays, times on the shop's clock.`}
      from={view.rule.from}
      to={view.rule.to}
      now={view.nowMinute}
      rows={bays.map((one) => ({
        name: one.name,
        blocks: view.bookings
          .filter((row) => row.bay.id === one.id)
          .map((row) => {
            const block = blockOf(row, view.day, view.zone);
            return {
              from: Math.max(block.from, view.rule.from),
              to: Math.min(block.to, view.rule.to),
              label: labelOf(row, view),
              href: `/s/${shop}/bookings/${row.id}`,
              tone: toneOf(row),
            };
          }),
      }))}
    />
  );
}
