import type { Reason } from "../reason";
import type { Ratio } from "../tuning/targetTypes";

export interface SlideBenchInput {
  /** Measured rate, or null for one from wire and coil. */
  readonly rateNPerM: number | null;
  readonly wireMm: number | null;
  readonly coilMm: number | null;
  readonly shearGPa: number | null;
  readonly coils: number;
  readonly coilsAfter: number | null;
  readonly freeMm: number;
  readonly installedMm: number;
  /** A second spring inside the first, left as it is; null: none. Both are needed, or neither. */
  readonly innerRateNPerM?: number | null | undefined;
  readonly innerFreeMm?: number | null | undefined;
  readonly boreMm: number;
  readonly diaphragmMm: number;
  readonly massG: number;
  readonly holes: { readonly count: number; readonly holeMm: number };
  readonly holesAfter: { readonly count: number; readonly holeMm: number };
  readonly depressionPa: number;
  readonly densityKgM3: number;
}

export interface SlideState {
  readonly rateNPerM: number;
  readonly freeMm: number;
  /** Force of the spring with the slide shut and fully lifted. */
  readonly shutN: number;
  readonly fullN: number;
  /** Depression that begins to lift the slide, and that holds it fully up. */
  readonly beginsPa: number;
  readonly fullPa: number;
  readonly rise: readonly { readonly liftMm: number; readonly timeMs: number }[];
}

export interface SlideBench {
  readonly before: SlideState;
  readonly after: SlideState;
  readonly rate: Ratio;
  /** Rise time new over old: holes alone, and solved to the lift both reach. */
  readonly holesRatio: Ratio;
  readonly solved: { readonly toMm: number; readonly ratio: number } | null;
  /** Force change at the fitted length, N. */
  readonly forceChangeN: number;
  /** True when holes and spring together are quicker than usually stays calm. */
  readonly flutter: boolean;
  readonly because: readonly Reason[];
}
