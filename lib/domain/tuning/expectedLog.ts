import { calibrationPoint, pointsIn } from "./calibrationPoint";
import { leadingRegion, REGIONS, targetLambda } from "./regions";
import { type AskingBike, keptAir, type RiddenEvidence } from "./ridden";
import { DECIDING } from "./steadyReading";
import type { FuelState, Region, RegionCorrection } from "./targetTypes";

/** Openings that a rider can hold. */
const OPENINGS = [0.02, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
/** One-sigma of one opening held for a few seconds. Source: the sensor's own in lambdaLog.ts. */
const HELD_SIGMA = 0.015;

/** The bike with its reference fitted. */
function asAccepted({ card, carburettors, reference }: AskingBike): FuelState {
  const { settings, needle, spring, flows } = reference;
  return { card, carburettors, reference, settings, needle, spring, flows };
}

/** The grip opening at which a region decides most on this bike; null where none gives it the greatest weight. Source: fuel model. */
export function openingFor(bike: AskingBike, region: Region): number | null {
  const point = pointsIn(asAccepted(bike), bike.reference.air);
  const weights = OPENINGS.map((throttle) => point(throttle, { kind: "accepted" }).weights);
  const best = weights.reduce((at, w, i) => (w[region] > (weights[at]?.[region] ?? 0) ? i : at), 0);
  const there = weights[best];
  return there && leadingRegion(there) === region ? (OPENINGS[best] ?? null) : null;
}

/**
 * A log as it would be kept if that opening were held on the bike as it is set now, in the air its settings are right for, and
 * read what is expected there. Null where no opening speaks of the region.
 */
export function expectedLog(
  bike: AskingBike,
  region: Region,
  expected: readonly RegionCorrection[],
): RiddenEvidence | null {
  const throttle = openingFor(bike, region);
  if (throttle === null) return null;
  const { weights, changed } = calibrationPoint(asAccepted(bike), bike.reference.air, throttle, {
    kind: "accepted",
  });
  const richer = REGIONS.reduce(
    (sum, r) => sum + weights[r] * (expected.find((c) => c.region === r)?.value ?? 0),
    changed,
  );
  const { settings, needle, spring, flows } = bike.reference;
  return {
    kind: "wideband",
    settings,
    needle: needle?.value,
    spring,
    flows,
    air: keptAir(bike.reference.air),
    at: [
      {
        throttle,
        lambda: targetLambda(throttle) * Math.exp(-richer),
        sigma: HELD_SIGMA,
        seconds: DECIDING[region].seconds,
      },
    ],
  };
}
