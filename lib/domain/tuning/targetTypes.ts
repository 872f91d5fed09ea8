import type { Air } from "../air/weather";
import type { SettingChange } from "../packages/recipe";
import type { Firmness, Reason } from "../reason";
import type { HowKnown, SettingKey } from "./settings";

/** A value and how it is known. */
export interface Known<T> {
  readonly value: T;
  readonly how: HowKnown;
}

export type CarburettorType = "cv" | "mechanical";
/** "bore": hundredths of a millimetre. "flow": a rated flow number. Across the two, comparison is approximate. */
export type JetConvention = "bore" | "flow";
/** Where bowl and diaphragm are vented. "unknown": both cases are computed and shown. */
export type VentedTo = "atmosphere" | "airbox" | "unknown";
export type FuelName = "E0" | "E10" | "E85";

/** A needle: straight part, then up to three tapers, from the shoulder downwards. */
export interface NeedleShape {
  readonly straightMm: number;
  /** Slide lift at which the first taper reaches the needle jet, clip in `clipAt`. */
  readonly straightLiftMm: number;
  readonly clipAt: number;
  readonly clipStepMm: number;
  readonly clips: number;
  readonly tapers: readonly { readonly lengthMm: number; readonly includedAngleDeg: number }[];
}

/**
 * What the model card knows. Every fact may be missing: a stated assumption stands in and widens the uncertainty.
 * Units as named. `displacementCc` is the whole engine's; lengths are per carburettor.
 */
export interface CardFacts {
  readonly displacementCc?: Known<number> | undefined;
  readonly cylinders?: Known<number> | undefined;
  readonly strokeMm?: Known<number> | undefined;
  readonly ratedRpm?: Known<number> | undefined;
  readonly carburettorType?: Known<CarburettorType> | undefined;
  readonly boreMm?: Known<number> | undefined;
  readonly diaphragmMm?: Known<number> | undefined;
  readonly slideMassG?: Known<number> | undefined;
  readonly springRateNPerM?: Known<number> | undefined;
  /** Free length and coils of the spring that `springRateNPerM` belongs to. */
  readonly springFreeMm?: Known<number> | undefined;
  readonly springCoils?: Known<number> | undefined;
  readonly springInstalledMm?: Known<number> | undefined;
  readonly needleJetMm?: Known<number> | undefined;
  readonly needle?: Known<NeedleShape> | undefined;
  readonly jetConvention?: Known<JetConvention> | undefined;
  readonly ventedTo?: Known<VentedTo> | undefined;
  readonly fuel?: Known<FuelName> | undefined;
  /** Inside diameter of the delivered snorkel, and of the hole left when it is out. */
  readonly snorkelMm?: Known<number> | undefined;
  readonly snorkelHoleMm?: Known<number> | undefined;
  /** Inside diameter of the header pipe at the weld. */
  readonly headerMm?: Known<number> | undefined;
  /** Delivered mixture screw, turns out. */
  readonly deliveredScrewTurns?: Known<number> | undefined;
}

export type SettingValues = Partial<Record<SettingKey, number>>;
export type KnownSettings = Partial<Record<SettingKey, Known<number>>>;

/** One carburettor as found. `name`: "left", "1", ... as the shop calls it. */
export interface FoundCarburettor {
  readonly name: string;
  readonly settings: KnownSettings;
  /** A needle other than the model card's that is fitted now. */
  readonly needle?: Known<NeedleShape> | undefined;
}

export interface JetOnHand {
  readonly setting: "mainJet" | "pilotJet";
  readonly convention: JetConvention;
  readonly size: number;
  /** Whole jets free (on hand less reserved). 0 and a size that can be ordered: set `orderable`. */
  readonly free: number;
  readonly orderable: boolean;
}

export type Region = "pilot" | "straight" | "taper" | "main";

/** Correction of one region, in natural-log units of richness (0.03 is 3 % richer than the model says), with its sigma. */
export interface RegionCorrection {
  readonly region: Region;
  readonly value: number;
  readonly sigma: number;
  /** Weight of evidence: measurements that sampled the region. 0: the prior stands. */
  readonly samples: number;
}

export interface TargetInput {
  readonly card: CardFacts;
  readonly carburettors: readonly FoundCarburettor[];
  /** All setting changes of the chosen options, in order. Breathing changes are settings too. */
  readonly changes: readonly SettingChange[];
  /** A needle fitted by the package. */
  readonly newNeedle?: Known<NeedleShape> | undefined;
  /** Air that the settings are wanted for. */
  readonly now: Air;
  /** Air that the as-found settings were right for. */
  readonly baseline: Air;
  readonly jets: readonly JetOnHand[];
  /** From past outcomes or a lambda log; absent: prior. A region with samples counts as measured. */
  readonly calibration?: readonly RegionCorrection[] | undefined;
}

export interface TargetSetting {
  readonly key: SettingKey;
  readonly value: number;
  /** As found; null when unknown. */
  readonly from: number | null;
  readonly how: HowKnown;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

export interface JetCandidate {
  readonly size: number;
  readonly convention: JetConvention;
  /** Richness against target, as a fraction: -0.02 is 2 % lean. Full load for a main jet. */
  readonly phiError: number;
  /** Probability that full-load lambda is above 0.92. */
  readonly leanRisk: number;
  /** Expected asymmetric loss, lean counting three times rich. */
  readonly loss: number;
  readonly free: number;
  readonly orderable: boolean;
}

export interface JetChoice {
  readonly convention: JetConvention;
  /** The size that would be exactly right, unrounded. */
  readonly exact: number;
  readonly chosen: JetCandidate;
  readonly runnerUp: JetCandidate | null;
  /** Nearest size in the drawer, whether or not chosen; null when the drawer has none. */
  readonly nearestInDrawer: JetCandidate | null;
  /** Best size, whether or not in the drawer. */
  readonly best: JetCandidate;
  readonly inDrawer: boolean;
  /** What to know about stock or convention; "" when nothing. */
  readonly note: string;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

/** A step that the library will not recommend until something is measured. The sheet holds `allowed` instead. */
export interface TargetRefusal {
  readonly carburettor: string;
  readonly setting: SettingKey;
  readonly wanted: number;
  readonly allowed: number;
  readonly message: string;
  readonly remedy: string;
}

export interface CarburettorTarget {
  readonly name: string;
  readonly settings: readonly TargetSetting[];
  /** Null when no main jet is known as found, or none is computed and none is listed. */
  readonly mainJet: JetChoice | null;
  readonly pilotJet: JetChoice | null;
  /** Slide rise time new / old; null without lift holes known or on a mechanical slide. */
  readonly slideRise: Ratio | null;
  /** Spring rate new / old; null when unknown or on a mechanical slide. */
  readonly springRate: Ratio | null;
  /** Mixture screw to start from, turns out; null when unknown. */
  readonly screwStart: TargetSetting | null;
  readonly before: FuelState;
  readonly after: FuelState;
}

export interface Ratio {
  readonly value: number;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

export interface TargetSheet {
  readonly carburettors: readonly CarburettorTarget[];
  /** Dry-oxygen basis: now against baseline, and against 20 C dry 101 325 Pa. */
  readonly relativeDensity: { readonly toBaseline: Ratio; readonly toStandard: Ratio };
  readonly warnings: readonly Warning[];
  readonly refusals: readonly TargetRefusal[];
  /** Stated assumptions that stood in for missing facts. */
  readonly assumptions: readonly Reason[];
}

export interface Warning {
  readonly rule: string;
  readonly message: string;
  readonly remedy: string;
  /** "common practice", "model", ... */
  readonly source: string;
}

/** All that one fuel curve needs: what is fitted, and the reference it is relative to. */
export interface FuelState {
  readonly card: CardFacts;
  readonly carburettors: number;
  readonly settings: SettingValues;
  readonly needle?: Known<NeedleShape> | undefined;
  /** Settings that met the lambda target in this air: the curve is computed relative to them. */
  readonly reference: {
    readonly settings: SettingValues;
    readonly needle?: Known<NeedleShape> | undefined;
    readonly air: Air;
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
  readonly assumptions: readonly Reason[];
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}
