import type { Reason } from "../reason";
import type { DynoComparison } from "../tuning/dyno";
import type { PowerStandard } from "../tuning/power";

/** One row of a dyno file, SI besides rpm. Null: not in the file. */
export interface DynoRow {
  readonly rpm: number;
  readonly powerW: number | null;
  readonly torqueNm: number | null;
  readonly lambda: number | null;
  readonly temperatureK: number | null;
  readonly pressurePa: number | null;
  /** 0 to 1. */
  readonly humidity: number | null;
  readonly run: string;
}

export interface DynoTerms {
  /** "none": the file's powers stand, corrected already or not. */
  readonly standard: PowerStandard | "none";
  /** Names of the runs made after the work. */
  readonly after: readonly string[];
  readonly lowRpm: number | null;
  readonly highRpm: number | null;
}

export interface DynoRun {
  readonly run: string;
  readonly side: "before" | "after";
  readonly rows: number;
  readonly factor: number;
  /** False where the standard does not allow correcting this far. */
  readonly allowed: boolean;
  readonly because: readonly Reason[];
  /** Mean lambda over the run; null without a lambda column. */
  readonly lambda: number | null;
}

export interface DynoReading {
  readonly standard: DynoTerms["standard"];
  readonly runs: readonly DynoRun[];
  readonly comparison: DynoComparison;
  readonly peak: { readonly beforeNm: number; readonly afterNm: number };
}
