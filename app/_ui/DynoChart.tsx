import { LineChart } from "./LineChart";

export interface DynoChartProps {
  rpm: readonly number[];
  /** In the unit that `unit` says. */
  before: readonly number[];
  after: readonly number[];
  /** After over before less one, per rpm. */
  gain: readonly number[];
  /** One-sigma of the mean gain from repeats; null when not known. */
  noise: number | null;
  unit: string;
  locale?: string | undefined;
}

/** Torque before and after over engine speed, and below it the gain per engine speed with the noise of the repeats. */
export function DynoChart({ rpm, before, after, gain, noise, unit, locale }: DynoChartProps) {
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
          description={`After over before, in per cent at each engine speed.${noise === null ? "" : " The shaded band is two sigma of the repeats either way."}`}
          xName="rpm"
          yName="gain %"
          decimals={1}
          height={150}
          holds={0}
          locale={locale}
          band={
            noise === null
              ? undefined
              : { low: -200 * noise, high: 200 * noise, name: "what repeats alone would show" }
          }
          lines={[{ name: "gain", tone: "brass", points: over(gain.map((g) => g * 100)) }]}
        />
      </div>
    </>
  );
}
