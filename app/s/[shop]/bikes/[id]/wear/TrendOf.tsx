import { figureText, instantText } from "@/app/_ui/format";
import { LineChart } from "@/app/_ui/LineChart";
import type { LineOfChart } from "@/app/_ui/LineKey";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { MeasuredTrend } from "@/lib/data/bikes/measured";
import { type WearAhead, wearAhead } from "@/lib/domain/sheets/wearAhead";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";

const DAY = 86_400_000;

interface TrendProps {
  trend: MeasuredTrend;
  carburettors: readonly { readonly position: number; readonly label: string }[];
  /** The shop's address. */
  base: string;
  locale: string;
  zone: string;
  units: Parameters<typeof distanceUnit>[0];
  /** What the readings are drawn over. */
  over: "distance" | "time";
}

/** Parts whose distance to the limit is projected: they wear evenly with it. Source: common practice. */
const PROJECTED = new Set(["guidePlayMm", "needleJetBoreMm", "needleJetOvalityMm", "needleMm"]);

/** Every reading of one thing, the newest first, and a line where there are several. */
export function TrendOf({ trend, carburettors, base, locale, zone, units, over }: TrendProps) {
  const { readings, limit, unit, decimals } = trend;
  const side = carburettors.find((one) => one.position === trend.carburettor)?.label;
  const title =
    carburettors.length > 1 && trend.carburettor !== null
      ? `${trend.name}, ${(side ?? `carburettor ${trend.carburettor}`).toLowerCase()}`
      : trend.name;
  const first = readings[0]?.at.getTime() ?? 0;
  const figure = (value: number) => `${figureText(value, locale, decimals)}${unit && ` ${unit}`}`;
  const bound = limit?.low ?? limit?.high;
  const driven = onOneCounter(readings);
  const byDistance = over === "distance" && driven.length > 1;
  const shown = (km: number) => shownDistance(km, units);
  const points = byDistance
    ? driven.map((one) => ({ x: shown(one.km), y: one.value }))
    : readings.map((one) => ({ x: (one.at.getTime() - first) / DAY, y: one.value }));
  const ahead =
    limit && PROJECTED.has(trend.measures) ? wearAhead(driven, limit, 10 ** -(decimals ?? 0)) : null;
  const projected = byDistance && ahead?.known ? ahead : null;
  return (
    <Section title={title}>
      {limit && bound !== undefined && (
        <p className="mb-2 text-[15px]">
          {limit.low === undefined ? "Up to" : "From"} <span className="font-mono">{figure(bound)}</span>,{" "}
          <span className="text-soft">{limit.from}</span>
        </p>
      )}
      {ahead && <Ahead ahead={ahead} locale={locale} units={units} />}
      {(points.at(-1)?.x ?? 0) > (points[0]?.x ?? 0) && (
        <LineChart
          title={`${title} over ${byDistance ? "distance" : "time"}`}
          description={`${readings.length} readings, the first ${figure(readings[0]?.value ?? 0)}, the last ${figure(readings.at(-1)?.value ?? 0)}.`}
          lines={[
            { name: "measured", points, tone: "brass" },
            ...(projected ? linesAhead(projected, driven.at(0)?.km ?? 0, shown) : []),
          ]}
          xName={byDistance ? `odometer, ${distanceUnit(units)}` : "days since the first reading"}
          yName={unit || "count"}
          decimals={decimals}
          holds={bound}
          height={150}
          locale={locale}
        />
      )}
      <table className="ledger mt-2">
        <caption className="sr-only">Readings of {title}, the newest first</caption>
        <thead>
          <tr>
            <th scope="col">Read</th>
            <th scope="col" data-align="end">
              Odometer
            </th>
            <th scope="col" data-align="end">
              Value
            </th>
            <th scope="col">Was</th>
          </tr>
        </thead>
        <tbody>
          {readings.toReversed().map((one) => (
            <tr key={one.id}>
              <td data-first="">
                <a href={`${base}/jobs/${one.jobId}`} className="underline underline-offset-4">
                  Job {one.jobNumber}
                </a>
                , {instantText(one.at.toISOString(), locale, zone, "date")}
              </td>
              <td data-name="Odometer" data-align="end" data-empty={one.odometerKm === null ? "" : undefined}>
                {one.odometerKm !== null && (
                  <span className="font-mono">
                    {figureText(shownDistance(one.odometerKm, units), locale)} {distanceUnit(units)}
                  </span>
                )}
              </td>
              <td data-name="Value" data-align="end">
                <span className="font-mono">{figure(one.value)}</span>
              </td>
              <td data-name="Was">
                {one.inside ? (
                  <State shape="filled" tone="pine">
                    inside
                  </State>
                ) : (
                  <State shape="triangle" tone="oxide">
                    outside
                  </State>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Section>
  );
}

/** Readings with a distance since the counter was last exchanged, in the order in which they were taken. */
function onOneCounter(readings: MeasuredTrend["readings"]): { km: number; value: number }[] {
  let own: { km: number; value: number }[] = [];
  for (const { odometerKm: km, value } of readings)
    if (km !== null) own = km < (own.at(-1)?.km ?? 0) ? [{ km, value }] : [...own, { km, value }];
  return own;
}

/** The line to the limit and its band, a few points of each. */
function linesAhead(ahead: WearAhead, from: number, shown: (km: number) => number): LineOfChart[] {
  const to = ahead.latest ?? ahead.km ?? from + 1;
  const at = Array.from({ length: 13 }, (_, i) => from + ((to - from) * i) / 12);
  const points = (pick: "value" | "low" | "high") =>
    at.map((km) => ({ x: shown(km), y: ahead.at(km)[pick] }));
  return [
    { name: "line through the readings", points: points("value"), tone: "soft" },
    { name: "band, low", points: points("low"), tone: "pine", dashed: true },
    { name: "band, high", points: points("high"), tone: "pine", dashed: true },
  ];
}

/** At which distance the limit is probably met, or why nothing is projected. */
function Ahead({
  ahead,
  locale,
  units,
}: {
  ahead: ReturnType<typeof wearAhead>;
  locale: string;
  units: TrendProps["units"];
}) {
  if (!ahead.known) return <p className="mb-2 text-[15px] text-soft">Nothing is projected: {ahead.why}</p>;
  const at = (km: number | null) =>
    km === null
      ? "beyond a bike's life"
      : `${figureText(Math.round(shownDistance(km, units) / 100) * 100, locale)} ${distanceUnit(units)}`;
  return (
    <p className="mb-2 text-[15px]">
      The limit is probably met at{" "}
      <Opens
        name="When the limit is met"
        because={[
          {
            fact: `${ahead.readings} readings of the part that is fitted now`,
            from: "least squares over distance, with Student's t prediction interval: 8 of 10 next readings lie in it",
          },
        ]}
      >
        {at(ahead.km)}
      </Opens>
      , between {at(ahead.earliest)} and {at(ahead.latest)}.
    </p>
  );
}
