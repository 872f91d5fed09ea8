import type { Air } from "../air/weather";
import { calibrationPoint } from "../tuning/calibrationPoint";
import type { Known } from "../tuning/cardTypes";
import type { LambdaBin, LambdaReading } from "../tuning/lambdaLog";
import { USUAL_RATED_RPM } from "../tuning/machine";
import type { ModelledParts } from "../tuning/modelledParts";
import { leadingRegion, PRIOR_SIGMA, targetLambda } from "../tuning/regions";
import { calibrateFromRides, heldAt, keptAir } from "../tuning/ridden";
import type { FuelState, NeedleShape, Region, RegionCorrection, SettingValues } from "../tuning/targetTypes";

export interface LogBin extends LambdaBin {
  readonly target: number;
  /** Fraction richer (plus) or leaner (minus) than the target. */
  readonly richness: number;
  /** Region that decides here; null without a bike. */
  readonly region: Region | null;
}

export interface RegionAnswer extends RegionCorrection {
  readonly prior: number;
  readonly atPrior: boolean;
}

export interface LogAnswer {
  readonly bins: readonly LogBin[];
  readonly steady: number;
  readonly transient: number;
  readonly unreadable: number;
  /** Null without a bike. */
  readonly regions: readonly RegionAnswer[] | null;
  /** Rated speed of the bike, or what stands in for it: full load is told by it. */
  readonly ratedRpm: number;
}

/** The bike as it was ridden for the log; `accepted` (else the settings ridden) were right in `baseline`. */
export interface RiddenBike {
  readonly card: FuelState["card"];
  readonly carburettors: number;
  readonly settings: SettingValues;
  readonly accepted?: SettingValues | undefined;
  readonly needle?: Known<NeedleShape> | undefined;
  /** Described parts as ridden, and as they were with the accepted settings. */
  readonly parts?: ModelledParts | undefined;
  readonly acceptedParts?: ModelledParts | undefined;
  readonly baseline: Air;
  /** As its maker delivered it, where the card says. */
  readonly delivered?: SettingValues | undefined;
}

/**
 * What a lambda log says: per grip opening against the target lambda, and for a bike the correction of each region with its prior.
 * Throws what calibrateFromRides throws. Source: calibrate.ts; targets from memory.
 */
export function answerLog(reading: LambdaReading, bike: RiddenBike | null, air: Air | null): LogAnswer {
  const state: FuelState | null = bike && {
    card: bike.card,
    carburettors: bike.carburettors,
    settings: bike.settings,
    needle: bike.needle,
    ...bike.parts,
    reference: {
      settings: bike.accepted ?? bike.settings,
      needle: bike.needle,
      ...bike.acceptedParts,
      air: bike.baseline,
    },
  };
  const ridden = air ?? bike?.baseline;
  const regionAt = (throttle: number) =>
    state && ridden
      ? leadingRegion(calibrationPoint(state, ridden, throttle, { kind: "accepted" }).weights)
      : null;
  return {
    bins: reading.bins.map((bin) => {
      const target = targetLambda(bin.throttle);
      return { ...bin, target, richness: target / bin.lambda - 1, region: regionAt(bin.throttle) };
    }),
    ratedRpm: bike?.card.ratedRpm?.value ?? USUAL_RATED_RPM,
    steady: reading.steady,
    transient: reading.transient,
    unreadable: reading.unreadable,
    regions:
      state && ridden
        ? calibrateFromRides({ ...state, id: 0, delivered: bike?.delivered }, [
            {
              kind: "wideband",
              settings: state.settings,
              ...bike?.parts,
              air: keptAir(ridden),
              at: reading.bins.map(heldAt),
              bikeId: 0,
              current: true,
            },
          ]).map((c) => ({
            ...c,
            prior: PRIOR_SIGMA[c.region],
            atPrior: c.samples === 0,
          }))
        : null,
  };
}
