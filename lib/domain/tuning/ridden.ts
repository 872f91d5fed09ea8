import { type Air, buildAir } from "../air/weather";
import { buildOf } from "./build";
import { calibrate, calibrationCertainty } from "./calibrate";
import { pointsIn } from "./calibrationPoint";
import type { LambdaBin } from "./lambdaLog";
import type { Lesson } from "./lesson";
import { machineFrom } from "./machine";
import { decides, stillHolds } from "./steadyReading";
import type { FuelState, NeedleShape, Region, RegionCorrection, SettingValues } from "./targetTypes";

/** Air as it is kept with evidence: Pa, K, relative humidity 0 to 1. */
export interface KeptAir {
  readonly pressurePa: number;
  readonly temperatureK: number;
  readonly humidity: number;
}

/** What was read, accepted or felt at one grip opening, 0 to 1. */
export interface RiddenOpening {
  readonly throttle: number;
  /** Lambda and its fractional sigma, for "wideband". */
  readonly lambda?: number | undefined;
  readonly sigma?: number | undefined;
  /** Engine speed and seconds held, where the log has them. */
  readonly rpm?: number | undefined;
  readonly seconds?: number | undefined;
  /** For "felt". */
  readonly sign?: "lean" | "rich" | undefined;
}

/** What one ride taught, as it was: what was fitted, in which air, and what was read, accepted or felt. */
export interface RiddenEvidence {
  readonly kind: "wideband" | "accepted" | "felt";
  readonly settings: SettingValues;
  /** A needle other than the model card's that was fitted; its shape is known. */
  readonly needle?: NeedleShape | undefined;
  readonly air: KeptAir;
  /** Name of the instrument; absent: the shop's own. */
  readonly sensor?: string | undefined;
  readonly at: readonly RiddenOpening[];
}

/** A ride of one bike of the model. `current`: since the last work on that bike. */
export interface TaughtRide extends RiddenEvidence {
  readonly bikeId: number;
  readonly current: boolean;
}

/** The bike that asks, and what its maker delivered. */
export interface AskingBike extends Pick<FuelState, "card" | "carburettors" | "reference"> {
  readonly id: number;
  readonly delivered?: SettingValues | undefined;
}

/** Openings that an accepted setting speaks for: a good ride is good at every throttle position. Source: judgement. */
export const ACCEPTED_AT: readonly { readonly throttle: number }[] = [0.02, 0.125, 0.25, 0.5, 0.75, 1].map(
  (throttle) => ({ throttle }),
);

/** An air's numbers, to be kept with evidence. */
export function keptAir({ pressurePa, temperatureK, humidity }: Air): KeptAir {
  return { pressurePa, temperatureK, humidity };
}

/** A bin of a log as it is kept with evidence. */
export function heldAt({ throttle, lambda, sigma, rpm, seconds }: LambdaBin): RiddenOpening {
  return { throttle, lambda, sigma, seconds, ...(rpm === null ? {} : { rpm }) };
}

/**
 * Region corrections from all that was ridden on a model, for one bike's reference: each reading is compared with what the
 * model says of *its* settings in *its* air from that reference, so that a change made after a log is not counted twice and
 * bikes set up differently teach each other. A region counts as measured only by a steady reading of this bike, since the last
 * work on it and with the settings that it has now. Throws what calibrationPoint throws. Source: calibrate.ts, steadyReading.ts.
 */
export function calibrateFromRides(
  bike: AskingBike,
  rides: readonly TaughtRide[],
): readonly RegionCorrection[] {
  return learner(bike, rides).learn();
}

/** The same, ready to be asked again with more rides: what it has read once it does not read again. */
export interface Learner {
  readonly learn: (more?: readonly TaughtRide[]) => readonly RegionCorrection[];
  /** How sure it would be, without the values. */
  readonly certainty: (more?: readonly TaughtRide[]) => readonly RegionCorrection[];
}

/** Reads a model's rides for one bike. Throws what calibrationPoint throws. */
export function learner(bike: AskingBike, rides: readonly TaughtRide[]): Learner {
  const lessons = rides.map((ride) => lessonOf(bike, ride));
  const { ratedRpm } = machineFrom(
    bike.card,
    bike.carburettors,
    bike.reference.settings,
    bike.reference.needle,
  );
  const build = buildOf(bike.reference.settings, bike.delivered, bike.reference.needle?.value, bike.card);
  const all = (more: readonly TaughtRide[]) => [...lessons, ...more.map((ride) => lessonOf(bike, ride))];
  return {
    certainty: (more = []) => calibrationCertainty(all(more), build),
    learn: (more = []) =>
      calibrate(all(more), build).map((c) => ({
        ...c,
        measured: [...rides, ...more].some((ride) => measures(bike, ride, c.region, ratedRpm)),
      })),
  };
}

function measures(bike: AskingBike, ride: TaughtRide, region: Region, ratedRpm: number): boolean {
  if (ride.bikeId !== bike.id || !ride.current || ride.kind !== "wideband") return false;
  if (!stillHolds(region, ride.settings, bike.reference.settings)) return false;
  return ride.at.some((at) =>
    decides(region, { throttle: at.throttle, rpm: at.rpm ?? null, seconds: at.seconds ?? 0 }, ratedRpm),
  );
}

function lessonOf(bike: AskingBike, ride: TaughtRide): Lesson {
  const { pressurePa, temperatureK, humidity } = ride.air;
  const air = buildAir(pressurePa, temperatureK, humidity, false, 0.01, []);
  const needle = ride.needle
    ? { value: ride.needle, how: "read" as const }
    : (bike.card.needle ?? bike.reference.needle);
  const point = pointsIn({ ...bike, settings: ride.settings, needle }, air);
  return {
    bike: ride.bikeId === bike.id ? 0 : ride.bikeId,
    build: buildOf(ride.settings, bike.delivered, ride.needle, bike.card),
    sensor: ride.sensor ?? "",
    points: ride.at.map(({ throttle, lambda, sigma, sign }) =>
      point(throttle, {
        kind: ride.kind === "felt" ? (sign === "rich" ? "felt rich" : "felt lean") : ride.kind,
        ...(lambda === undefined ? {} : { lambda }),
        ...(sigma === undefined ? {} : { sigma }),
      }),
    ),
  };
}
