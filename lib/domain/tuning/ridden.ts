import { type Air, buildAir } from "../air/weather";
import { type CalibrationPoint, calibrate, calibrationPoint } from "./calibrate";
import type { FuelState, RegionCorrection, SettingValues } from "./targetTypes";

/** Air as it is kept with evidence: Pa, K, relative humidity 0 to 1. */
export interface KeptAir {
  readonly pressurePa: number;
  readonly temperatureK: number;
  readonly humidity: number;
}

/** What one ride taught, as it was: what was fitted, in which air, and what was read or accepted at each grip opening. */
export interface RiddenEvidence {
  readonly kind: "wideband" | "accepted";
  readonly settings: SettingValues;
  readonly air: KeptAir;
  /** Grip opening 0 to 1; lambda and its fractional sigma for "wideband". */
  readonly at: readonly {
    readonly throttle: number;
    readonly lambda?: number | undefined;
    readonly sigma?: number | undefined;
  }[];
}

/** Openings that an accepted setting speaks for: a good ride is good at every throttle position. Source: judgement. */
export const ACCEPTED_AT: readonly { readonly throttle: number }[] = [0.02, 0.125, 0.25, 0.5, 0.75, 1].map(
  (throttle) => ({ throttle }),
);

/** An air's numbers, to be kept with evidence. */
export function keptAir({ pressurePa, temperatureK, humidity }: Air): KeptAir {
  return { pressurePa, temperatureK, humidity };
}

/**
 * Region corrections from all that was ridden on a model, for one bike's reference: each reading is compared with what the
 * model says of *its* settings in *its* air from that reference, so that a change made after a log is not counted twice and
 * bikes set up differently teach each other. Kept rides first to last; regions nothing sampled keep their prior.
 * Throws what calibrationPoint throws. Source: calibrate.ts.
 */
export function calibrateFromRides(
  bike: Pick<FuelState, "card" | "carburettors" | "reference">,
  rides: readonly RiddenEvidence[],
): readonly RegionCorrection[] {
  return calibrate(rides.flatMap((ride) => pointsOf(bike, ride)));
}

function pointsOf(
  bike: Pick<FuelState, "card" | "carburettors" | "reference">,
  ride: RiddenEvidence,
): readonly CalibrationPoint[] {
  const { pressurePa, temperatureK, humidity } = ride.air;
  const air = buildAir(pressurePa, temperatureK, humidity, false, 0.01, []);
  const state = { ...bike, settings: ride.settings, needle: bike.reference.needle };
  return ride.at.map(({ throttle, lambda, sigma }) =>
    calibrationPoint(state, air, throttle, {
      kind: ride.kind,
      ...(lambda === undefined ? {} : { lambda }),
      ...(sigma === undefined ? {} : { sigma }),
    }),
  );
}
