import { dateText, minutesText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import type { DayView } from "@/lib/data/bookings/list";
import { blockOf } from "@/lib/data/bookings/list";
import type { Load } from "@/lib/domain/schedule/load";

export interface WeekRuleProps {
  view: DayView;
  hrefOf: (day: string) => string;
}

const TALL = 48;

/** The load of a day in words: what is sold, held and free. */
export function loadText({ capacity, sold, held, free, over }: Load): string {
  if (capacity === 0 && sold + held === 0) return "nobody works";
  const hours = (minutes: number) => minutesText(minutes, "min", "h");
  return [
    sold > 0 && `${hours(sold)} sold`,
    held > 0 && `${hours(held)} held`,
    over > 0 ? `${hours(over)} too much` : `${hours(free)} free`,
  ]
    .filter(Boolean)
    .join(", ");
}

/** The week as rules of hours: each bay and each person over seven days, each day a way to it; its load at the head. */
export function WeekRule({ view, hrefOf }: WeekRuleProps) {
  const { from, to } = view.rule;
  const rows = [
    ...view.bays.map((bay) => ({ key: `bay-${bay.id}`, name: bay.name, of: "bay" as const, id: bay.id })),
    ...view.people.map((one) => ({
      key: `person-${one.id}`,
      name: one.name,
      of: "staff" as const,
      id: one.id,
    })),
  ];
  // To a hundredth of a percent: finer is not drawn.
  const at = (minutes: number) =>
    Math.round(((Math.min(Math.max(minutes, from), to) - from) / (to - from)) * 10_000) / 100;
  const hours = Array.from({ length: Math.floor((to - from) / 60) + 1 }, (_, i) => from + i * 60);
  const ruled = hours.map((hour) => `M${at(hour)} 0V${TALL}`).join("");
  return (
    <table className="w-full table-fixed border-collapse text-[14px] max-md:hidden">
      <caption className="sr-only">The week by bay and by person</caption>
      <thead>
        <tr className="border-ink border-b-2 align-bottom">
          <th scope="col" className="w-[7.5rem] pr-3 text-start font-semibold">
            Bay, person
          </th>
          {view.days.map(({ day, load, closed }) => (
            <th
              key={day}
              scope="col"
              aria-current={day === view.day ? "date" : undefined}
              className="px-1 pb-1 text-start font-normal aria-[current=date]:bg-brass-wash"
            >
              <span className="block font-semibold">{dateText(day, view.locale, "weekday")}</span>
              <span className="text-soft">{closed ?? loadText(load)}</span>
              <LoadBar load={load} />
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key} className="border-hair border-b">
            <th scope="row" className="pr-3 text-start font-semibold">
              {row.name}
            </th>
            {view.days.map(({ day, bookings }) => {
              const own = bookings.filter((one) => one[row.of].id === row.id);
              return (
                <td key={day} className="border-hair border-l p-0">
                  <Link
                    href={hrefOf(day)}
                    aria-label={`${row.name}, ${dateText(day, view.locale, "weekday")}: ${own.length === 0 ? "nothing booked" : own.map((one) => one.of.name).join(", ")}`}
                    className="block"
                  >
                    <svg width="100%" height={TALL} aria-hidden="true" className="block">
                      <svg
                        width="100%"
                        height={TALL}
                        viewBox={`0 0 100 ${TALL}`}
                        preserveAspectRatio="none"
                        aria-hidden="true"
                      >
                        <path d={ruled} vectorEffect="non-scaling-stroke" className="stroke-hair" />
                      </svg>
                      {own.map((one) => {
                        const block = blockOf(one, day, view.zone);
                        return (
                          <rect
                            key={one.id}
                            x={`${at(block.from)}%`}
                            y="8"
                            width={`${at(block.to) - at(block.from)}%`}
                            height={TALL - 16}
                            strokeWidth="1.5"
                            className={one.job ? "fill-brass-wash stroke-ink" : "fill-sheet stroke-ink"}
                            strokeDasharray={one.job ? undefined : "4 3"}
                          />
                        );
                      })}
                    </svg>
                  </Link>
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Sold, held and free as parts of the day's time; too much fills it. */
function LoadBar({ load }: { load: Load }) {
  const whole = Math.max(load.capacity, load.sold + load.held, 1);
  const [sold, held] = [(load.sold / whole) * 100, (load.held / whole) * 100];
  return (
    <svg width="100%" height="8" aria-hidden="true" className="mt-1 block">
      <rect width="100%" height="8" className="fill-hair" />
      <rect width={`${sold}%`} height="8" className={load.over > 0 ? "fill-oxide" : "fill-brass-fill"} />
      <rect x={`${sold}%`} width={`${held}%`} height="8" className="fill-edge" />
    </svg>
  );
}
