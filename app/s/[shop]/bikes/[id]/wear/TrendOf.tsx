import { figureText, instantText } from "@/app/_ui/format";
import { LineChart } from "@/app/_ui/LineChart";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { MeasuredTrend } from "@/lib/data/bikes/measured";
import { distanceUnit, shownDistance } from "../../distance";

const DAY = 86_400_000;

interface TrendProps {
  trend: MeasuredTrend;
  carburettors: readonly { readonly position: number; readonly label: string }[];
  /** The shop's address. */
  base: string;
  locale: string;
  zone: string;
  units: Parameters<typeof distanceUnit>[0];
}

/** Every reading of one thing, the newest first, and a line where there are several. */
export function TrendOf({ trend, carburettors, base, locale, zone, units }: TrendProps) {
  const { readings, limit, unit, decimals } = trend;
  const side = carburettors.find((one) => one.position === trend.carburettor)?.label;
  const title =
    carburettors.length > 1 && trend.carburettor !== null
      ? `${trend.name}, ${(side ?? `carburettor ${trend.carburettor}`).toLowerCase()}`
      : trend.name;
  const first = readings[0]?.at.getTime() ?? 0;
  const figure = (value: number) => `${figureText(value, locale, decimals)}${unit && ` ${unit}`}`;
  const points = readings.map((one) => ({ x: (one.at.getTime() - first) / DAY, y: one.value }));
  const bound = limit?.low ?? limit?.high;
  return (
    <Section title={title}>
      {limit && bound !== undefined && (
        <p className="mb-2 text-[15px]">
          {limit.low === undefined ? "Up to" : "From"} <span className="font-mono">{figure(bound)}</span>,{" "}
          <span className="text-soft">{limit.from}</span>
        </p>
      )}
      {(points.at(-1)?.x ?? 0) > 0 && (
        <LineChart
          title={`${title} over time`}
          description={`${readings.length} readings, the first ${figure(readings[0]?.value ?? 0)}, the last ${figure(readings.at(-1)?.value ?? 0)}.`}
          lines={[{ name: "measured", points, tone: "brass" }]}
          xName="days since the first reading"
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
