import type { Air } from "../air/weather";
import { Refusal, within } from "../refusal";
import type { CalibrationPoint, Evidence } from "./lesson";
import { ACCEPTED_SIGMA, targetLambda } from "./regions";
import { logRichness, type Resolved, resolve, type Station, stationAt } from "./station";
import type { FuelState } from "./targetTypes";

/** How far off target it must be to be felt (log), and how sure that is. Source: judgement. */
const FELT = 0.04;
const FELT_SIGMA = 0.05;

/** What was seen at an opening: `lambda` for "wideband" (sigma 0.015 to 0.03), nothing else for the other kinds. */
export interface Seen {
  readonly kind: Evidence;
  readonly lambda?: number;
  readonly sigma?: number;
  readonly steady?: boolean;
}

/** Evidence from openings of one ride; with vents unknown, against the atmosphere case. Throws Refusal, OutOfRange. */
export function pointsIn(state: FuelState, air: Air): (throttle: number, seen: Seen) => CalibrationPoint {
  const r = resolve({ ...state, calibration: undefined }, air);
  const vent = r.vents[0] ?? "atmosphere";
  return (throttle, seen) =>
    pointAt(r, stationAt(r, vent, within("throttle", throttle, 0, 1)), throttle, seen);
}

/** Evidence from one opening, as pointsIn. */
export function calibrationPoint(state: FuelState, air: Air, throttle: number, seen: Seen): CalibrationPoint {
  return pointsIn(state, air)(throttle, seen);
}

function pointAt(r: Resolved, station: Station, throttle: number, seen: Seen): CalibrationPoint {
  const model = logRichness(r, station, r.now);
  const steady = seen.steady ?? true;
  const say = (target: number, sigma: number) => ({
    kind: seen.kind,
    weights: station.weights,
    error: target - model,
    sigma,
    changed: model,
    steady,
  });
  if (seen.kind === "accepted") return say(0, ACCEPTED_SIGMA);
  if (seen.kind === "felt lean") return say(-FELT, FELT_SIGMA);
  if (seen.kind === "felt rich") return say(FELT, FELT_SIGMA);
  if (seen.lambda === undefined)
    throw new Refusal("A wideband reading has no lambda.", "Enter the lambda that was read.");
  const lambda = within("lambda", seen.lambda, 0.5, 2);
  return say(
    Math.log(targetLambda(throttle) / lambda),
    within("lambda sigma", seen.sigma ?? 0.02, 0.005, 0.2),
  );
}
