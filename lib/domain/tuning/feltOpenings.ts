import type { RiddenOpening } from "./ridden";
import type { Observation, ThrottlePosition } from "./rideTypes";

/** Grip opening of each position that a ride speaks of. Source: judgement for a closed throttle. */
const OPENING: Readonly<Record<ThrottlePosition, number>> = {
  closed: 0.02,
  eighth: 0.125,
  quarter: 0.25,
  half: 0.5,
  threeQuarter: 0.75,
  full: 1,
};

/**
 * What a ride's observations say of the mixture on one side: felt lean or felt rich, steady and hot. A cold engine is on its
 * enrichener, and a snap is the slide's. Source: common practice.
 */
export function feltOpenings(observations: readonly Observation[]): readonly RiddenOpening[] {
  return observations.flatMap((o) =>
    o.condition === "steady" && o.engine === "hot" && (o.sign === "lean" || o.sign === "rich")
      ? [{ throttle: OPENING[o.throttle], sign: o.sign }]
      : [],
  );
}
