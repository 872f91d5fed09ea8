import { measurable, measuredName } from "../tuning/measurables";

/** One reading of something on a bike, taken on a job. */
export interface TrendReading {
  readonly id: number;
  readonly at: Date;
  readonly value: number;
  readonly inside: boolean;
  readonly odometerKm: number | null;
  readonly jobId: number;
  readonly jobNumber: string;
}

export interface MeasuredOnce extends TrendReading {
  readonly measures: string;
  readonly station: number | null;
  readonly carburettor: number | null;
}

/** What was measured of one thing over the jobs of a bike, the oldest reading first. */
export interface Trend {
  readonly measures: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly station: number | null;
  readonly carburettor: number | null;
  readonly readings: readonly TrendReading[];
}

/** Readings, in the order they were taken, by what they measure, carburettor and station: parts that wear first, then settings, by name. */
export function trendsOf(readings: readonly MeasuredOnce[]): Trend[] {
  const groups = Map.groupBy(
    readings,
    (one) => `${one.measures} ${one.carburettor ?? ""} ${one.station ?? ""}`,
  );
  const trends = [...groups.values()].flatMap((own): Trend[] => {
    const [first] = own;
    const def = first && measurable(first.measures);
    if (!first || !def) return [];
    const { measures, station, carburettor } = first;
    return [
      {
        measures,
        name: measuredName(measures, station),
        unit: def.unit,
        decimals: def.decimals,
        station,
        carburettor,
        readings: own.toSorted((a, b) => a.at.getTime() - b.at.getTime()),
      },
    ];
  });
  const wears = (one: Trend) => (measurable(one.measures)?.kind === "wear" ? 0 : 1);
  return trends.toSorted(
    (a, b) =>
      wears(a) - wears(b) ||
      a.name.localeCompare(b.name, "en", { numeric: true }) ||
      (a.carburettor ?? 0) - (b.carburettor ?? 0),
  );
}
