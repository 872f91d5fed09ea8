import { type Air, buildAir } from "../air/weather";
import { buildOf } from "./build";
import { calibrate, calibrationCertainty } from "./calibrate";
import { pointsIn } from "./calibrationPoint";
import type { FittedSpring } from "./fittedSpring";
import type { LambdaBin } from "./lambdaLog";
import type { Lesson } from "./lesson";
import { machineFrom } from "./machine";
import type { ModelledParts } from "./modelledParts";
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

/**
 * What one ride taught, as it was: what was fitted, in which air, and what was read, accepted or felt. A spring that nobody described
 * is the delivered one as the settings cut it.
 */
export interface RiddenEvidence extends ModelledParts {
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
  readonly certainty: (more: readonly TaughtRide[]) => readonly RegionCorrection[];
}

/** Reads a model's rides for one bike. Throws what calibrationPoint throws. */
export function learner(bike: AskingBike, rides: readonly TaughtRide[]): Learner {
  const lessons = rides.map((ride) => lessonOf(bike, ride));
  const { settings, needle, spring } = bike.reference;
  const { ratedRpm } = machineFrom(bike.card, bike.carburettors, settings, needle);
  const build = buildOf({ settings, needle: needle?.value, spring }, bike.delivered, bike.card);
  const all = (more: readonly TaughtRide[]) => [...lessons, ...more.map((ride) => lessonOf(bike, ride))];
  return {
    certainty: (more) => calibrationCertainty(all(more), build),
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
  if (!sameParts(bike, ride)) return false;
  return ride.at.some((at) =>
    decides(region, { throttle: at.throttle, rpm: at.rpm ?? null, seconds: at.seconds ?? 0 }, ratedRpm),
  );
}

/** Springs whose rate or length differ by more than this share are two. Source: judgement, what a measurement can tell. */
const SAME_SPRING = 0.01;

/** Whether a ride was made with the spring, filter and silencer of the bike's reference, known on both sides or on neither. */
function sameParts(bike: AskingBike, ride: TaughtRide): boolean {
  const [was, is] = [slideSpring(bike, ride), slideSpring(bike, bike.reference)];
  const near = (a: number, b: number) => Math.abs(a / b - 1) <= SAME_SPRING;
  if (!near(was.rateNPerM, is.rateNPerM) || !near(was.freeM, is.freeM)) return false;
  return (["filter", "silencer"] as const).every((kind) => {
    const [before, now] = [ride.flows?.[kind], bike.reference.flows?.[kind]];
    return before?.flowLMin === now?.flowLMin && before?.atPa === now?.atPa;
  });
}

/** The slide's spring as described, else the delivered one as the settings cut it. */
function slideSpring(bike: AskingBike, { settings, spring }: Pick<RiddenEvidence, "settings" | "spring">) {
  return machineFrom(bike.card, bike.carburettors, settings, bike.reference.needle, {
    springs: { reference: spring },
  }).spring;
}

/** A ride's spring for the fuel model, which takes an undescribed one to be cut from the reference's. */
function springOf(bike: AskingBike, ride: TaughtRide): FittedSpring | undefined {
  if (ride.spring || !bike.reference.spring) return ride.spring;
  const { freeM, coils, rateNPerM } = slideSpring(bike, ride);
  return { freeMm: 1000 * freeM, coils: coils ?? null, rateNPerM, exchanged: false };
}

function lessonOf(bike: AskingBike, ride: TaughtRide): Lesson {
  const { pressurePa, temperatureK, humidity } = ride.air;
  const air = buildAir(pressurePa, temperatureK, humidity, false, 0.01, []);
  const needle = ride.needle
    ? { value: ride.needle, how: "read" as const }
    : (bike.card.needle ?? bike.reference.needle);
  const { card, carburettors, reference } = bike;
  const { settings, flows } = ride;
  const spring = springOf(bike, ride);
  const point = pointsIn({ card, carburettors, reference, settings, needle, spring, flows }, air);
  return {
    bike: ride.bikeId === bike.id ? 0 : ride.bikeId,
    build: buildOf(ride, bike.delivered, bike.card),
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
