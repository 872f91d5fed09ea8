import type { Weights } from "./regions";

export type Evidence = "wideband" | "accepted" | "felt lean" | "felt rich";

/** One piece of evidence: how much richer (log) than the model it says the bike is, and which regions it speaks of. */
export interface CalibrationPoint {
  readonly kind: Evidence;
  readonly weights: Weights;
  /** Log richness beyond the uncalibrated model; for "felt" the bound (it was at least that lean or rich). */
  readonly error: number;
  /** Of the reading as a whole, the instrument's bias included. */
  readonly sigma: number;
  /** Log richness by which the model says that this setting differs from the reference at this opening. */
  readonly changed: number;
  /** False for a transient: not fitted. */
  readonly steady: boolean;
}

/** "delivered": breathing, needle and spring as the maker left them. "modified": not. They teach apart. */
export type Build = "delivered" | "modified";

/** What one ride or log says: its points share whatever its instrument, or its rider, is off by. */
export interface Lesson {
  /** 0 for the bike that asks, another number for each other bike of the model. */
  readonly bike: number;
  readonly build: Build;
  /** Which instrument; every log of an unnamed one counts as the shop's own. */
  readonly sensor: string;
  readonly points: readonly CalibrationPoint[];
}

/** True for evidence that an instrument read. */
export const byInstrument = (p: CalibrationPoint) => p.kind === "wideband";
