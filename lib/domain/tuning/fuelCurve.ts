import { type Air, relativeAirDensity } from "../air/weather";
import type { Reason } from "../reason";
import { within } from "../refusal";
import { leadingRegion, targetLambda } from "./regions";
import {
  correctionAt,
  logRichness,
  logSigma,
  metered,
  type Resolved,
  resolve,
  type Station,
  stationAt,
} from "./station";
import type { FuelCurve, FuelState } from "./targetTypes";
import { unknownCases } from "./unknownCases";

/**
 * Lambda over grip opening for a state in an air, n points (2 to 400) from nearly closed to full, relative to the
 * reference settings that met the target in their own air. Band: 1.5 sigma. What is unknown and matters (vents, needle height, a
 * jet): each case, the curve in their middle and all of them in the band. Sources: tuning model as documented in airSide.ts and station.ts; weights, targets and priors judgement. Throws OutOfRange, Refusal.
 */
export function fuelCurve(state: FuelState, conditions: Air, n = 50): FuelCurve {
  within("points", n, 2, 400);
  const at = (i: number) => ({ throttle: 0.02 + (0.98 * i) / (Math.floor(n) - 1) });
  return curveOf(
    state,
    conditions,
    Array.from({ length: Math.floor(n) }, (_, i) => at(i)),
  );
}

/** Share of rated speed between which the mixture at full throttle is shown. Source: judgement. */
const SPEEDS = [0.35, 1.05] as const;

/**
 * Lambda over engine speed at full throttle for a state in an air, n points (2 to 400), as fuelCurve. Filling over speed is the
 * bike's own where the card has it, else the usual curve (volumetric.ts). Throws OutOfRange, Refusal.
 */
export function fuelOverSpeed(state: FuelState, conditions: Air, n = 30): FuelCurve {
  within("points", n, 2, 400);
  const r = resolve(state, conditions);
  const [low, high] = SPEEDS;
  return curveOf(
    state,
    conditions,
    Array.from({ length: Math.floor(n) }, (_, i) => ({
      throttle: 1,
      rpm: r.machine.ratedRpm * (low + ((high - low) * i) / (Math.floor(n) - 1)),
    })),
  );
}

function curveOf(
  state: FuelState,
  conditions: Air,
  places: readonly { readonly throttle: number; readonly rpm?: number }[],
): FuelCurve {
  const r = resolve(state, conditions);
  const open = unknownCases(state).map((one) => ({ ...one, r: resolve(one.state, conditions) }));
  const cases = r.vents.map(() => [] as number[]);
  const others = open.map(() => [] as number[]);
  const points = places.map(({ throttle, rpm }) => {
    const target = targetLambda(throttle);
    const stations = r.vents.map((v) => stationAt(r, v, throttle, rpm));
    const logs = stations.map((s) => logRichness(r, s, r.now));
    logs.forEach((l, k) => {
      cases[k]?.push(target * Math.exp(-l));
    });
    const unknown = open.map((one) =>
      caseRichness(
        one.r,
        one.movesSlide ? one.r.vents.map((v) => stationAt(one.r, v, throttle, rpm)) : stations,
      ),
    );
    unknown.forEach((l, k) => {
      others[k]?.push(target * Math.exp(-l));
    });
    const [first] = stations;
    const all = [...logs, ...unknown];
    const [most, least] = [Math.max(...all), Math.min(...all)];
    const middle = (most + least) / 2;
    const sigma = first
      ? Math.hypot(logSigma(r, first, middle - correctionAt(r, first.weights)), (most - least) / 2)
      : 0;
    const lambda = target * Math.exp(-middle);
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
    cases: open.map(({ name, settle }, k) => ({ name, settle, lambda: others[k] ?? [] })),
    assumptions: [
      ...r.machine.assumptions,
      ...open.map(({ name, settle }) => ({
        fact: `Not known, may be: ${name}`,
        from: "nobody looked",
        effect: settle,
      })),
    ],
    because: curveReasons(r),
    firmness: "starting point",
  };
}

/** A case's log richness: the mean of its vent cases. It differs in what is metered, not in the air that passes. */
function caseRichness(r: Resolved, stations: readonly Station[]): number {
  const logs = stations.map((station) => logRichness(r, metered(r, station), r.now));
  return logs.reduce((a, b) => a + b, 0) / logs.length;
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
