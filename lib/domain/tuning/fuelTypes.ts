import type { Air } from "../air/weather";
import type { Firmness, Reason } from "../reason";
import type { FuelName, Known, ModelCardFacts, NeedleShape, SettingKey, SettingValues } from "./cardTypes";
import type { FittedSpring } from "./fittedSpring";
import type { Flows } from "./flowFigures";

export type Region = "pilot" | "straight" | "taper" | "main";

/** Correction of one region, in natural-log units of richness (0.03 is 3 % richer than the model says), with its sigma. */
export interface RegionCorrection {
  readonly region: Region;
  readonly value: number;
  readonly sigma: number;
  /** Covariance of this region with each, in the order of REGIONS; absent: with none but itself. */
  readonly covariance?: readonly number[] | undefined;
  /** Readings of an instrument that sampled the region, on any bike of the model. */
  readonly samples: number;
  /** True when a steady reading that decides this region was made on this bike as it is set now (steadyReading.ts); only that lifts the limit of one step. */
  readonly measured?: boolean | undefined;
}

/** Fuel as said; absent: the card's, as warm as the air. */
export interface FuelSaid {
  readonly fuel?: FuelName | undefined;
  readonly fuelTemperatureK?: number | undefined;
}

/** All that one fuel curve needs: what is fitted, and the reference it is relative to. */
export interface FuelState extends FuelSaid {
  readonly card: ModelCardFacts;
  readonly carburettors: number;
  readonly settings: SettingValues;
  readonly needle?: Known<NeedleShape> | undefined;
  /** The slide spring as described; absent: the sheet's length and coils tell it. */
  readonly spring?: FittedSpring | undefined;
  /** Filter and silencer, where it is known how freely they pass air. */
  readonly flows?: Flows | undefined;
  /** The needle raised by this against the reference, mm, where only the difference is known. */
  readonly raisedMm?: number | undefined;
  /** Settings that met the lambda target in this air: the curve is computed relative to them. */
  readonly reference: FuelSaid & {
    readonly settings: SettingValues;
    readonly needle?: Known<NeedleShape> | undefined;
    readonly spring?: FittedSpring | undefined;
    readonly flows?: Flows | undefined;
    readonly air: Air;
    /** Settings of these that nobody looked at: the model card's stand in, and both cases are shown where they matter. */
    readonly unsure?: readonly SettingKey[] | undefined;
  };
  readonly calibration?: readonly RegionCorrection[] | undefined;
}

export interface FuelPoint {
  /** Grip opening, 0 to 1. */
  readonly throttle: number;
  readonly rpm: number;
  readonly liftMm: number;
  readonly lambda: number;
  /** One-sigma-and-a-half band (about 87 %). */
  readonly low: number;
  readonly high: number;
  /** Region with the greatest weight here. */
  readonly region: Region;
  readonly target: number;
}

export interface FuelCurve {
  readonly points: readonly FuelPoint[];
  /** When vents are unknown: lambda for each case, same order as points. */
  readonly ventCases: readonly {
    readonly ventedTo: "atmosphere" | "airbox";
    readonly lambda: readonly number[];
  }[];
  /** What nobody looked at, where it makes a difference: each case's lambda, same order as points, and what would settle it. */
  readonly cases: readonly UnknownCase[];
  readonly assumptions: readonly Reason[];
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

/** One of the ways an unknown fact may be, in words, with the measurement that would settle it. */
export interface UnknownCase {
  readonly name: string;
  readonly settle: string;
  readonly lambda: readonly number[];
}
