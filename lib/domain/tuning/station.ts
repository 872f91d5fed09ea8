import type { Air } from "../air/weather";
import { within } from "../refusal";
import { type AirSide, airSide } from "./airSide";
import { type Fitted, type Metering, mainCircuitMm2, pilotCircuitMm2 } from "./circuits";
import { cutawayRichness } from "./cutaway";
import { type Machine, machineFrom } from "./machine";
import { ACCEPTED_SIGMA, PRIOR_SIGMA, REGIONS, regionWeights, type Weights } from "./regions";
import type { FuelSaid, FuelState, Region } from "./targetTypes";

export type VentCase = "atmosphere" | "airbox";

/** Mixture screw where neither sheet nor card knows it. Source: judgement; only ratios to it are used. */
const USUAL_TURNS = 1.5;

/** A fuel state made ready to compute: nothing missing. */
export interface Resolved {
  readonly machine: Machine;
  readonly now: Fitted;
  readonly reference: Fitted;
  readonly vents: readonly VentCase[];
  readonly error: Readonly<
    Record<
      Region,
      {
        readonly value: number;
        readonly sigma: number;
        readonly covariance: readonly number[] | undefined;
        readonly measured: boolean;
      }
    >
  >;
}

/** Resolves a state in the air it is wanted for; settings that the state leaves out are the reference's. */
export function resolve(state: FuelState, air: Air): Resolved {
  const ref = state.reference;
  const machine = machineFrom(state.card, state.carburettors, ref.settings, ref.needle, {
    springs: { reference: ref.spring, now: state.spring },
    flows: { reference: ref.flows, now: state.flows },
  });
  const whole = {
    mainJet: machine.mainJet,
    pilotJet: machine.pilotJet,
    mixtureScrewTurns: state.card.deliveredScrewTurns?.value ?? USUAL_TURNS,
    ...ref.settings,
  };
  const error = Object.fromEntries(
    REGIONS.map((region) => {
      const c = state.calibration?.find((x) => x.region === region);
      return [
        region,
        c
          ? { value: c.value, sigma: c.sigma, covariance: c.covariance, measured: c.measured === true }
          : { value: 0, sigma: acceptedSigma(region), covariance: undefined, measured: false },
      ];
    }),
  ) as unknown as Resolved["error"];
  return {
    machine,
    now: {
      settings: { ...whole, ...state.settings },
      needle: (state.needle ?? { value: machine.needle }).value,
      raisedMm: state.raisedMm,
      spring: machine.springNow,
      flows: machine.flows.now,
      air,
      ...fuelIn(state, air, machine),
    },
    reference: {
      settings: whole,
      needle: machine.needle,
      flows: machine.flows.reference,
      air: ref.air,
      ...fuelIn(ref, ref.air, machine),
    },
    vents: machine.ventedTo === "unknown" ? ["atmosphere", "airbox"] : [machine.ventedTo],
    error,
  };
}

/** The fuel and how warm it is: as said, else the card's, as warm as the air (judgement). */
function fuelIn(said: FuelSaid, air: Air, machine: Machine): Pick<Fitted, "fuel" | "fuelTemperatureK"> {
  return {
    fuel: said.fuel ?? machine.fuel,
    fuelTemperatureK: within("fuel temperature", said.fuelTemperatureK ?? air.temperatureK, 233, 353, "K"),
  };
}

/** Sigma of a region once a setup was accepted: what calibrate answers without lessons. */
export function acceptedSigma(region: Region): number {
  return 1 / Math.hypot(1 / PRIOR_SIGMA[region], 1 / ACCEPTED_SIGMA);
}

/** Air sides of now and reference at one opening; independent of jets and needle, so computed once per opening. */
export interface Station {
  readonly now: AirSide;
  readonly reference: AirSide;
  readonly weights: Weights;
  /** Circuit areas (mm2) of the reference. */
  readonly main: number;
  readonly pilot: number;
}

/** `rpm` absent: the speed a bike is ridden at for the opening. */
export function stationAt(r: Resolved, vent: VentCase, throttle: number, rpm?: number): Station {
  const now = airSide(r.machine, r.now, vent, throttle, rpm);
  const reference = airSide(r.machine, r.reference, vent, throttle, rpm);
  return metered(r, { now, reference, weights: regionWeights(now.liftShare) });
}

/** A station of the same air sides, metered by what another reference has fitted: the air side knows neither jets nor needle. */
export function metered(r: Resolved, sides: Pick<Station, "now" | "reference" | "weights">): Station {
  const { settings } = r.reference;
  return {
    now: sides.now,
    reference: sides.reference,
    weights: sides.weights,
    main: mainCircuitMm2(r.machine, r.reference, sides.reference.liftMm, settings),
    pilot: pilotCircuitMm2(r.machine, settings, settings.mixtureScrewTurns ?? USUAL_TURNS),
  };
}

/** Natural log of richness against target at a station, for what is fitted. 0: on target; -0.05: 5 % lean. */
export function logRichness(r: Resolved, station: Station, fitted: Metering): number {
  const { now, reference, weights: w } = station;
  const turns = r.reference.settings.mixtureScrewTurns ?? USUAL_TURNS;
  const main =
    (mainCircuitMm2(r.machine, fitted, now.liftMm, r.reference.settings) / station.main) *
    (now.perArea / reference.perArea);
  const pilot =
    (pilotCircuitMm2(r.machine, fitted.settings, turns) / station.pilot) *
    (now.perPilotArea / reference.perPilotArea);
  return Math.log(w.pilot * pilot + (1 - w.pilot) * main) + cutaway(r, station, fitted) + correctionAt(r, w);
}

function cutaway(r: Resolved, station: Station, fitted: Metering): number {
  const [was, is] = [r.reference.settings.slideCutawayMm, fitted.settings.slideCutawayMm];
  if (r.machine.type === "cv" || was === undefined || is === undefined) return 0;
  return cutawayRichness(station.now.liftShare, is, was);
}

/** What was learned at these weights, log richness beyond the model. */
export function correctionAt(r: Resolved, weights: Weights): number {
  let sum = 0;
  for (const region of REGIONS) sum += weights[region] * r.error[region].value;
  return sum;
}

/**
 * One-sigma of log richness at a station: region errors by weight, 30 % of what the model says has changed (`changed`, without
 * what was learned; judgement), the assumptions' share of that change, and the air's own.
 */
export function logSigma(r: Resolved, station: Station, changed: number): number {
  let variance = (changed * 0.3) ** 2 + (changed * r.machine.widen) ** 2 + (0.02 * r.machine.widen) ** 2;
  REGIONS.forEach((a, i) => {
    const { covariance, sigma } = r.error[a];
    REGIONS.forEach((b, j) => {
      const shared = covariance ? (covariance[j] ?? 0) : i === j ? sigma ** 2 : 0;
      variance += station.weights[a] * station.weights[b] * shared;
    });
  });
  variance += (0.5 * r.now.air.sigma) ** 2 + (0.5 * r.reference.air.sigma) ** 2;
  return Math.sqrt(variance);
}
