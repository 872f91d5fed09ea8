import type { BandPoint } from "@/app/_ui/CurveBand";
import type { FuelCurve, FuelPoint } from "@/lib/domain/tuning/targetTypes";

/** Room on either side of the lambda aimed at that counts as wanted, as on a log's reading. Source: judgement. */
const WANTED = 0.03;

export interface DrawnCurves {
  readonly before: readonly BandPoint[];
  readonly after: readonly BandPoint[];
  readonly wanted: readonly BandPoint[];
}

const banded = (x: number, p: FuelPoint): BandPoint => ({ x, y: p.lambda, low: p.low, high: p.high });
const wantedAt = (x: number, p: FuelPoint): BandPoint => ({
  x,
  y: p.target,
  low: p.target - WANTED,
  high: p.target + WANTED,
});

/** Both curves over the grip's opening. */
export function overThrottle(before: FuelCurve, after: FuelCurve): DrawnCurves {
  return {
    before: before.points.map((p) => banded(p.throttle, p)),
    after: after.points.map((p) => banded(p.throttle, p)),
    wanted: after.points.map((p) => wantedAt(p.throttle, p)),
  };
}

/** Both curves over the slide's lift as a share of `fullMm`, the curve before read at the lifts of the one after. */
export function overLift(before: FuelCurve, after: FuelCurve, fullMm: number): DrawnCurves {
  const rising = (points: readonly FuelPoint[]) =>
    points.filter(
      (p, i) => i === 0 || p.liftMm > Math.max(...points.slice(0, i).map((q) => q.liftMm)) + 1e-6,
    );
  const found = rising(before.points);
  const shown = rising(after.points);
  return {
    before: shown.map((p) => between(found, p.liftMm, fullMm)),
    after: shown.map((p) => banded(p.liftMm / fullMm, p)),
    wanted: shown.map((p) => wantedAt(p.liftMm / fullMm, p)),
  };
}

function between(points: readonly FuelPoint[], liftMm: number, fullMm: number): BandPoint {
  const high = points.findIndex((p) => p.liftMm >= liftMm);
  const b = points[high < 0 ? points.length - 1 : high];
  const a = points[Math.max(0, (high < 0 ? points.length : high) - 1)];
  if (!a || !b) return { x: liftMm / fullMm, y: 1, low: 1, high: 1 };
  const share =
    b.liftMm > a.liftMm ? Math.min(1, Math.max(0, (liftMm - a.liftMm) / (b.liftMm - a.liftMm))) : 1;
  const mix = (of: (p: FuelPoint) => number) => of(a) + share * (of(b) - of(a));
  return { x: liftMm / fullMm, y: mix((p) => p.lambda), low: mix((p) => p.low), high: mix((p) => p.high) };
}

/** Both curves over engine speed, x as a share between the lowest and the highest. */
export function overSpeed(
  before: FuelCurve,
  after: FuelCurve,
): DrawnCurves & { lowRpm: number; highRpm: number } {
  const lowRpm = after.points[0]?.rpm ?? 0;
  const highRpm = after.points.at(-1)?.rpm ?? 1;
  const x = (p: FuelPoint) => (p.rpm - lowRpm) / Math.max(1, highRpm - lowRpm);
  return {
    before: before.points.map((p) => banded(x(p), p)),
    after: after.points.map((p) => banded(x(p), p)),
    wanted: after.points.map((p) => wantedAt(x(p), p)),
    lowRpm,
    highRpm,
  };
}
