import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import type { CardReading, HandedReading } from "@/lib/domain/sheets/handedOver";
import { measurable } from "@/lib/domain/tuning/measurables";

/** Readings of parts and of what no sheet keeps; settings are told above, once. */
export function Measured({ readings, locale }: { readings: readonly HandedReading[]; locale: string }) {
  if (readings.length === 0) return null;
  const several = readings.some((one) => (one.carburettor ?? 0) > 1);
  const text = (one: HandedReading, value: number) =>
    [figureText(value, locale, measurable(one.measures)?.decimals), one.unit].filter(Boolean).join(" ");
  return (
    <Section title="Measured">
      <Facts
        rows={readings.map((one, at) => ({
          key: String(at),
          name: [
            one.name,
            ...(several && one.carburettor !== null ? [`carburettor ${one.carburettor}`] : []),
            ...(one.overrideReason ? [`let pass: ${one.overrideReason}`] : []),
          ].join(", "),
          value: `${text(one, one.value)}${one.found === null ? "" : `, found ${text(one, one.found)}`}`,
          mono: true,
        }))}
      />
    </Section>
  );
}

/** Settings that an owner let pass outside their limits, and why; the number itself stands with the settings. */
export function LetPass({ readings }: { readings: readonly CardReading[] }) {
  return readings.map((one) => (
    <p key={`${one.measures} ${one.carburettor} ${one.name}`}>
      {one.name}, let pass: {one.overrideReason}
    </p>
  ));
}
