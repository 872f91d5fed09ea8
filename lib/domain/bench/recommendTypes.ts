import type { Air } from "../air/weather";
import type { SettingChange } from "../tuning/settingChange";
import type {
  FoundCarburettor,
  JetOnHand,
  ModelCardFacts,
  RegionCorrection,
  TargetInput,
  TargetSheet,
} from "../tuning/targetTypes";

/** An air that one setting is wanted for, as it is called. */
export interface NamedAir {
  readonly name: string;
  readonly air: Air;
}

export interface RecommendInput {
  readonly card: ModelCardFacts;
  readonly carburettors: readonly FoundCarburettor[];
  readonly changes: readonly SettingChange[];
  /** Air that the settings found were right for. */
  readonly baseline: Air;
  /** One air, or the corners of a range: one setting is wanted for all of them. */
  readonly airs: readonly NamedAir[];
  readonly jets: readonly JetOnHand[];
  /** Needle shims of the drawer. */
  readonly shims?: TargetInput["shims"];
  readonly fuel?: TargetInput["fuel"];
  /** Needles to rank beside the fitted one. */
  readonly needles?: TargetInput["needles"];
  readonly calibration?: readonly RegionCorrection[] | undefined;
}

/** How the recommended setting fares in one air. */
export interface CornerOutcome {
  readonly name: string;
  readonly air: Air;
  /** Oxygen per volume against the baseline. */
  readonly density: number;
  /** Main jet that would be exactly right there; null when none is known or none is. */
  readonly exact: number | null;
  /** Of the recommended main jet there, as a fraction: plus is rich. */
  readonly phiError: number | null;
  readonly leanRisk: number | null;
}

export interface Recommendation {
  /** The setting, with curves and risks as in the worst corner. */
  readonly sheet: TargetSheet;
  readonly corners: readonly CornerOutcome[];
  readonly worst: NamedAir;
}
