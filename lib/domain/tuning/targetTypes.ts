import type { Air } from "../air/weather";
import type { Firmness, Reason } from "../reason";
import type { JetConvention, Known, KnownSettings, ModelCardFacts, NeedleShape } from "./cardTypes";
import type { DescribedPart } from "./describedParts";
import type { FuelSaid, FuelState, RegionCorrection } from "./fuelTypes";
import type { NeedlePosition, ShimOnHand } from "./needlePosition";
import type { NeedleWork } from "./needleWork";
import type { PartChange, PartTarget } from "./partChange";
import type { SettingChange } from "./settingChange";
import type { HowKnown, SettingKey } from "./settings";

export type * from "./cardTypes";
export type * from "./fuelTypes";

/** One carburettor as found. `name`: "left", "1", ... as the shop calls it. */
export interface FoundCarburettor {
  readonly name: string;
  readonly settings: KnownSettings;
  /** A needle other than the model card's that is fitted now. */
  readonly needle?: Known<NeedleShape> | undefined;
  /** Springs, holes, openings, filter and silencer as they were described on it, one of a kind. */
  readonly parts?: readonly DescribedPart[] | undefined;
}

/** What a package does to the needle, and the needle that it fits where it exchanges it. */
export interface NeedleChange {
  readonly work: NeedleWork;
  readonly part?: Known<NeedleShape> | undefined;
}

/** The needle before and after its change. */
export interface NeedleTarget {
  readonly work: NeedleWork;
  readonly before: NeedleShape;
  readonly after: NeedleShape;
  /** Where the work's ring gauge stops, mm below the shoulder; null where it has none or it stops nowhere. */
  readonly gauge: {
    readonly gaugeMm: number;
    readonly beforeMm: number | null;
    readonly afterMm: number | null;
  } | null;
}

/** A needle that can be had. */
export interface NamedNeedle {
  readonly name: string;
  readonly shape: NeedleShape;
}

/** A needle with its best groove: how far off it leaves an eighth to past half throttle, judged. */
export interface NeedleRank extends NamedNeedle {
  readonly clip: number;
  readonly phiError: number;
  readonly loss: number;
}

export interface JetOnHand {
  readonly setting: "mainJet" | "pilotJet";
  readonly convention: JetConvention;
  readonly size: number;
  /** Whole jets free (on hand less reserved). 0 and a size that can be ordered: set `orderable`. */
  readonly free: number;
  readonly orderable: boolean;
}

export interface TargetInput {
  readonly card: ModelCardFacts;
  readonly carburettors: readonly FoundCarburettor[];
  /** All setting changes of the chosen options, in order. Breathing changes are settings too. */
  readonly changes: readonly SettingChange[];
  /** A needle fitted by the package. */
  readonly newNeedle?: Known<NeedleShape> | undefined;
  /** What the package does to the needle. */
  readonly needleChange?: NeedleChange | undefined;
  /** Parts that the package leaves otherwise; their figures stand among the changes. */
  readonly partChanges?: readonly PartChange[] | undefined;
  /** Needle shims that the drawer has. */
  readonly shims?: readonly ShimOnHand[] | undefined;
  /** Air that the settings are wanted for. */
  readonly now: Air;
  /** Air that the as-found settings were right for. */
  readonly baseline: Air;
  readonly jets: readonly JetOnHand[];
  /** Fuel that the as-found settings were right for, and that is wanted now; absent: the card's, as warm as the air. */
  readonly fuel?: { readonly found?: FuelSaid | undefined; readonly now?: FuelSaid | undefined } | undefined;
  /** Needles to choose among, besides the one that is fitted. */
  readonly needles?: readonly NamedNeedle[] | undefined;
  /** From past outcomes or a lambda log; absent: prior. */
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

/** A jet by air density alone: firm, whatever the carburettor. */
export interface DensityJet {
  readonly exact: number;
  /** Rounded to the richer size. */
  readonly size: number;
  readonly areaRatio: number;
  readonly because: readonly Reason[];
}

export interface JetChoice {
  readonly convention: JetConvention;
  /** The size that would be exactly right, unrounded. */
  readonly exact: number;
  /** The sheet's value: computed, or kept as found, or set by a package; the last two whether or not the best. */
  readonly chosen: JetCandidate;
  readonly runnerUp: JetCandidate | null;
  /** Nearest size in the drawer, whether or not chosen; null when the drawer has none. */
  readonly nearestInDrawer: JetCandidate | null;
  /** Best size, whether or not in the drawer. */
  readonly best: JetCandidate;
  readonly inDrawer: boolean;
  /** What to know about stock or convention; "" when nothing. */
  readonly note: string;
  /** What air density alone asks for, beside what the whole model does; absent where no jet is known as fitted. */
  readonly density?: DensityJet | undefined;
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
  /** Null when no main jet is known as found, or none meets the target (a warning says so). */
  readonly mainJet: JetChoice | null;
  readonly pilotJet: JetChoice | null;
  /** Needles given to choose among and the fitted one, best first; empty where none was given. */
  readonly needles: readonly NeedleRank[];
  /** Slide rise time new / old; null without lift holes known or on a mechanical slide. */
  readonly slideRise: Ratio | null;
  /** Spring rate new / old; null when unknown or on a mechanical slide. */
  readonly springRate: Ratio | null;
  /** Mixture screw to start from, turns out; null when unknown. */
  readonly screwStart: TargetSetting | null;
  /** Where the needle is to sit; null where the package leaves it, or nothing tells how it is held. */
  readonly needlePosition?: NeedlePosition | null;
  /** The needle's change; null where the package leaves it, or it cannot be placed (a warning says so). */
  readonly needle?: NeedleTarget | null;
  /** Described parts that the work changes; absent where it changes none. */
  readonly parts?: readonly PartTarget[];
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
