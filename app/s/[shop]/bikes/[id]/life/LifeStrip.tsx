import { scaleLinear } from "d3-scale";
import { Chart } from "@/app/_ui/Chart";
import { dateText, figureText } from "@/app/_ui/format";
import { LIFE_KINDS, type LifeKind, type PlacedEvent } from "@/lib/domain/sheets/lifeStrip";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";

const LANE = 30;
const NAMES: Readonly<Record<LifeKind, string>> = {
  job: "Jobs",
  sheet: "Sheets",
  reading: "Readings",
  ride: "Rides",
  photo: "Photos",
  part: "Parts",
};
export const KIND_WORDS: Readonly<Record<LifeKind, string>> = {
  job: "job",
  sheet: "settings",
  reading: "reading",
  ride: "ride",
  photo: "photo",
  part: "part fitted",
};

interface Props {
  events: readonly PlacedEvent[];
  over: "distance" | "date";
  locale: string;
  zone: string;
  units: Parameters<typeof distanceUnit>[0];
}

/** A bike's life as one strip, a lane for each kind of thing; where the distance is estimated the mark is hollow. */
export function LifeStrip({ events, over, locale, zone, units }: Props) {
  const byDistance = over === "distance";
  const on = events.flatMap((event) => {
    const x = byDistance ? event.placedKm : event.at;
    return x === null ? [] : [{ event, x }];
  });
  const xs = on.map((one) => one.x);
  const [from, to] = [Math.min(...xs), Math.max(...xs)];
  const scale = scaleLinear([from, to === from ? from + 1 : to], [1, 99]);
  const day = (at: number) => new Date(at).toLocaleDateString("sv-SE", { timeZone: zone });
  const xText = (x: number) =>
    byDistance ? figureText(shownDistance(x, units), locale) : dateText(day(x), locale);
  const unit = byDistance ? distanceUnit(units) : "";
  const lanes = LIFE_KINDS.filter((kind) => events.some((event) => event.kind === kind));
  const floor = lanes.length * LANE;
  const ticks = [
    { tick: from, anchor: "start" },
    { tick: (from + to) / 2, anchor: "middle" },
    { tick: to, anchor: "end" },
  ] as const;
  return (
    <Chart
      title={`The bike's life by ${over}`}
      description={`${on.length} of ${events.length} entries from ${xText(from)} to ${xText(to)} ${unit}: ${lanes
        .map((kind) => `${NAMES[kind].toLowerCase()} ${on.filter((one) => one.event.kind === kind).length}`)
        .join(", ")}.`}
      height={floor + 30}
      inset="pl-[4.75rem] pr-3"
      table={{
        head: [byDistance ? `Odometer, ${unit}` : "Day", "What", "Entry"],
        rows: on.map(({ event, x }) => [
          `${xText(x)}${byDistance && event.estimated ? ", estimated" : ""}`,
          KIND_WORDS[event.kind],
          event.text,
        ]),
      }}
    >
      {lanes.map((kind, at) => {
        const y = at * LANE + LANE / 2;
        return (
          <g key={kind}>
            <text x="-72" y={y + 4} className="fill-soft">
              {NAMES[kind]}
            </text>
            <line x1="0" x2="100%" y1={y} y2={y} className="stroke-hair" />
            {on
              .filter(({ event }) => event.kind === kind)
              .map(({ event, x }, i) => (
                <circle
                  // biome-ignore lint/suspicious/noArrayIndexKey: entries have no id of their own, and the drawing does not reorder
                  key={i}
                  cx={`${scale(x)}%`}
                  cy={y}
                  r={kind === "job" ? 6 : 4}
                  strokeWidth={2}
                  className={
                    byDistance && event.estimated ? "fill-paper stroke-brass" : "fill-brass stroke-brass"
                  }
                />
              ))}
          </g>
        );
      })}
      {ticks.map(({ tick, anchor }) => (
        <text
          key={anchor}
          x={`${scale(tick)}%`}
          y={floor + 20}
          textAnchor={anchor}
          className={anchor === "middle" ? "fill-soft font-mono max-sm:hidden" : "fill-soft font-mono"}
        >
          {xText(tick)}
        </text>
      ))}
    </Chart>
  );
}
