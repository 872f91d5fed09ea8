import type { Air } from "../air/weather";
import { relativeAirDensity } from "../air/weather";
import type { Reason } from "../reason";
import { within } from "../refusal";
import { type AirSide, airSide, type Fitted, mainCircuitMm2, pilotCircuitMm2 } from "./forward";
import { type Machine, machineFrom } from "./machine";
import {
  ACCEPTED_SIGMA,
  leadingRegion,
  PRIOR_SIGMA,
  REGIONS,
  regionWeights,
  targetLambda,
  type Weights,
} from "./regions";
import type { FuelCurve, FuelState, Region } from "./targetTypes";

export type VentCase = "atmosphere" | "airbox";

/** A fuel state made ready to compute: nothing missing. */
export interface Resolved {
  readonly machine: Machine;
  readonly now: Fitted;
  readonly reference: Fitted;
  readonly vents: readonly VentCase[];
  readonly error: Readonly<
    Record<Region, { readonly value: number; readonly sigma: number; readonly samples: number }>
  >;
}

/** Resolves a state in the air it is wanted for; settings that the state leaves out are the reference's. */
export function resolve(state: FuelState, air: Air): Resolved {
  const ref = state.reference;
  const refNeedle = ref.needle ?? state.card.needle;
  const machine = machineFrom(state.card, state.carburettors, ref.settings, refNeedle);
  const whole = { mainJet: machine.mainJet, pilotJet: machine.pilotJet, ...ref.settings };
  const error = Object.fromEntries(
    REGIONS.map((region) => {
      const c = state.calibration?.find((x) => x.region === region);
      return [
        region,
        c
          ? { value: c.value, sigma: c.sigma, samples: c.samples }
          : { value: 0, sigma: acceptedSigma(region), samples: 0 },
      ];
    }),
  ) as unknown as Resolved["error"];
  return {
    machine,
    now: {
      settings: { ...whole, ...state.settings },
      needle: (state.needle ?? { value: machine.needle }).value,
      air,
    },
    reference: { settings: whole, needle: machine.needle, air: ref.air },
    vents: machine.ventedTo === "unknown" ? ["atmosphere", "airbox"] : [machine.ventedTo],
    error,
  };
}

/** Sigma of a region once a setup was accepted: prior and one pseudo-observation. */
function acceptedSigma(region: Region): number {
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

export function stationAt(r: Resolved, vent: VentCase, throttle: number): Station {
  const now = airSide(r.machine, r.now, vent, throttle);
  const reference = airSide(r.machine, r.reference, vent, throttle);
  const turns = r.reference.settings.mixtureScrewTurns ?? 1.5;
  return {
    now,
    reference,
    weights: regionWeights(now.liftShare),
    main: mainCircuitMm2(r.machine, r.reference, reference.liftMm, r.reference.settings.needleSeatMm ?? 0),
    pilot: pilotCircuitMm2(r.machine, r.reference.settings, turns),
  };
}

/** Natural log of richness against target at a station, for what is fitted. 0: on target; -0.05: 5 % lean. */
export function logRichness(r: Resolved, station: Station, fitted: Omit<Fitted, "air">): number {
  const { now, reference, weights: w } = station;
  const seat = r.reference.settings.needleSeatMm ?? 0;
  const turns = r.reference.settings.mixtureScrewTurns ?? 1.5;
  const main =
    (mainCircuitMm2(r.machine, fitted, now.liftMm, seat) / station.main) * (now.perArea / reference.perArea);
  const pilot =
    (pilotCircuitMm2(r.machine, fitted.settings, turns) / station.pilot) *
    (now.perPilotArea / reference.perPilotArea);
  let error = 0;
  for (const region of REGIONS) error += w[region] * r.error[region].value;
  return Math.log(w.pilot * pilot + (1 - w.pilot) * main) + error;
}

/**
 * One-sigma of log richness at a station: region errors by weight, 30 % of what the model says has changed (judgement),
 * the assumptions' share of that change, and the air's own.
 */
export function logSigma(r: Resolved, station: Station, changed: number): number {
  let variance = (changed * 0.3) ** 2 + (changed * r.machine.widen) ** 2 + (0.02 * r.machine.widen) ** 2;
  for (const region of REGIONS) variance += (station.weights[region] * r.error[region].sigma) ** 2;
  variance += (0.5 * r.now.air.sigma) ** 2 + (0.5 * r.reference.air.sigma) ** 2;
  return Math.sqrt(variance);
}

/**
 * Lambda over grip opening for a state in an air, n points (2 to 400) from nearly closed to full, relative to the
 * reference settings that met the target in their own air. Band: 1.5 sigma. Vents unknown: both cases, the curve between
 * them. Sources: tuning model as documented in forward.ts; weights, targets and priors judgement. Throws OutOfRange, Refusal.
 */
export function fuelCurve(state: FuelState, conditions: Air, n = 50): FuelCurve {
  within("points", n, 2, 400);
  const r = resolve(state, conditions);
  const cases = r.vents.map(() => [] as number[]);
  const points = Array.from({ length: Math.floor(n) }, (_, i) => {
    const throttle = 0.02 + (0.98 * i) / (Math.floor(n) - 1);
    const target = targetLambda(throttle);
    const stations = r.vents.map((v) => stationAt(r, v, throttle));
    const logs = stations.map((s) => logRichness(r, s, r.now));
    logs.forEach((l, k) => {
      cases[k]?.push(target * Math.exp(-l));
    });
    const [first] = stations;
    const mean = logs.reduce((a, b) => a + b, 0) / logs.length;
    const spread = (Math.max(...logs) - Math.min(...logs)) / 2;
    const sigma = first ? Math.hypot(logSigma(r, first, mean), spread) : 0;
    const lambda = target * Math.exp(-mean);
    return {
      throttle,
      rpm: first?.now.rpm ?? 0,
      liftMm: stations.reduce((a, s) => a + s.now.liftMm, 0) / stations.length,
      lambda,
      low: lambda * Math.exp(-1.5 * sigma),
      high: lambda * Math.exp(1.5 * sigma),
      region: first ? leadingRegion(first.weights) : ("main" as const),
      target,
    };
  });
  return {
    points,
    ventCases: r.vents.length < 2 ? [] : r.vents.map((ventedTo, k) => ({ ventedTo, lambda: cases[k] ?? [] })),
    assumptions: r.machine.assumptions,
    because: curveReasons(r),
    firmness: "starting point",
  };
}

function curveReasons(r: Resolved): readonly Reason[] {
  const density = relativeAirDensity(r.now.air, r.reference.air);
  return [
    {
      fact: `Air carries ${(density * 100).toFixed(1)} % of the oxygen of the reference air`,
      from: "CIPM-2007, dry-air density",
      effect: density < 1 ? "richer at the same settings" : "leaner or the same at the same settings",
    },
    {
      fact: "Reference settings met the lambda target",
      from: "accepted setup",
      effect: "the curve is relative to them",
    },
    { fact: "Lambda target and region weights", from: "common practice, judgement" },
  ];
}
