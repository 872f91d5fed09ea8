import { LineChart } from "./LineChart";

export interface DynoChartProps {
  rpm: readonly number[];
  /** In the unit that `unit` says. */
  before: readonly number[];
  after: readonly number[];
  /** After over before less one, per rpm. */
  gain: readonly number[];
  /** One-sigma of the mean gain from repeats; null when not known. */
  /** Half of the gain's 95 % interval; null where the noise is not known. */
  margin: number | null;
  unit: string;
  locale?: string | undefined;
}

/** Torque before and after over engine speed, and below it the gain per engine speed with what the repeats alone would show. */
export function DynoChart({ rpm, before, after, gain, margin, unit, locale }: DynoChartProps) {
  const over = (values: readonly number[]) => rpm.map((x, i) => ({ x, y: values[i] ?? 0 }));
  return (
    <>
      <LineChart
        title="Torque over engine speed"
        description="Mean of the runs before and of the runs after, on one grid of engine speeds."
        xName="rpm"
        yName={unit}
        decimals={1}
        locale={locale}
        lines={[
          { name: "before", tone: "soft", dashed: true, points: over(before) },
          { name: "after", tone: "brass", points: over(after) },
        ]}
      />
      <div className="mt-4">
        <LineChart
          title="Gain over engine speed"
          description={`After over before, in per cent at each engine speed.${margin === null ? "" : " The shaded band is what repeats alone would show in 95 of 100 cases."}`}
          xName="rpm"
          yName="gain %"
          decimals={1}
          height={150}
          holds={0}
          locale={locale}
          band={
            margin === null
              ? undefined
              : { low: -100 * margin, high: 100 * margin, name: "what repeats alone would show" }
          }
          lines={[{ name: "gain", tone: "brass", points: over(gain.map((g) => g * 100)) }]}
        />
      </div>
    </>
  );
}
