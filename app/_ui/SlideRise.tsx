import { LineChart } from "./LineChart";

export interface RisePoint {
  readonly liftMm: number;
  readonly timeMs: number;
}

/** A slide's lift over time after the throttle is snapped open, before and after. */
export function SlideRise({
  before,
  after,
  locale,
}: {
  before: readonly RisePoint[];
  after: readonly RisePoint[];
  locale?: string | undefined;
}) {
  const over = (rise: readonly RisePoint[]) => rise.map((p) => ({ x: p.timeMs, y: p.liftMm }));
  return (
    <LineChart
      title="Slide lift after the throttle is snapped open"
      description="Lift in millimetres over milliseconds, with the spring and lift holes as they are and as they would be."
      xName="ms"
      yName="mm"
      decimals={1}
      locale={locale}
      lines={[
        { name: "as it is", tone: "soft", dashed: true, points: over(before) },
        { name: "as changed", tone: "brass", points: over(after) },
      ]}
    />
  );
}
