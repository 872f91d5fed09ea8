import type { Firmness, Reason } from "../reason";
import type { SettingKey } from "./settings";

export type ThrottlePosition = "closed" | "eighth" | "quarter" | "half" | "threeQuarter" | "full";
export type RideCondition = "steady" | "snap" | "decelerating" | "idle" | "starting";
export type RideSign = "rich" | "lean" | "hesitates" | "surges" | "floods" | "good";

/** What was felt or seen at one throttle position on a test ride. */
export interface Observation {
  readonly throttle: ThrottlePosition;
  readonly condition: RideCondition;
  readonly engine: "cold" | "hot";
  readonly sign: RideSign;
  readonly note?: string | undefined;
}

/** One change to try. `from`/`to` in the setting's own unit; `from` is null when the sheet does not know it. */
export interface Correction {
  readonly setting: SettingKey;
  readonly from: number | null;
  /** Null when `from` is unknown: the direction is in `direction`. */
  readonly to: number | null;
  readonly unit: string;
  readonly direction: "richer" | "leaner" | "up" | "down";
  /** 0 to 1; relative to the other corrections of the same list. */
  readonly score: number;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
  /** Other settings that are changed in the same step: a practised combination. */
  readonly also?: readonly ChangedToo[];
  /** What must be measured before this is done; absent when nothing. */
  readonly needsMeasurement?: string;
}

/** A setting that a correction changes along with its own. */
export interface ChangedToo {
  readonly setting: SettingKey;
  readonly from: number;
  readonly to: number;
}

/** A fault that looks like a wrong setting: looked at before any setting is changed. */
export interface RuleOut {
  readonly check: string;
  readonly why: string;
}

export interface RideReading {
  /** Best first. One change at a time: only the first is to be done before the next ride. */
  readonly corrections: readonly Correction[];
  readonly ruleOutFirst: readonly RuleOut[];
  /** Observations that no setting explains, or that contradict each other, in words. */
  readonly unexplained: readonly string[];
}
