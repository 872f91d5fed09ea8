import type { Air } from "../air/weather";
import type { VentCase } from "../tuning/station";
import type { JetChoice, ModelCardFacts, Warning } from "../tuning/targetTypes";

export interface BreathingInput {
  readonly card: ModelCardFacts;
  readonly displacementCc: number;
  readonly carburettors: number;
  readonly ratedRpm: number;
  readonly mainJet: number;
  readonly snorkelMm: number;
  readonly snorkelHoleMm: number;
  readonly before: { readonly snorkelIn: boolean; readonly openingMm: number; readonly weldMm: number };
  readonly after: { readonly snorkelIn: boolean; readonly openingMm: number; readonly weldMm: number };
  /** Filter's loss at the same flow, Pa; null leaves it out. */
  readonly filterLossPa: number | null;
  readonly headerMm: number;
  readonly air: Air;
}

export interface BreathingState {
  /** Effective area of all openings, mm2. */
  readonly openMm2: number;
  /** Depression in the airbox at rated speed and full load, Pa. */
  readonly boxPa: number;
  /** Loss of the header weld on the pipe's own velocity head. */
  readonly weldK: number;
}

export interface VentAnswer {
  readonly vented: VentCase;
  readonly main: JetChoice | null;
  /** Main jet area wanted over fitted, less one. */
  readonly areaChange: number;
}

export interface BreathingBench {
  readonly flowM3S: number;
  readonly before: BreathingState;
  readonly after: BreathingState;
  readonly vents: readonly VentAnswer[];
  readonly warnings: readonly Warning[];
  /** True when less than about 1 mm of header weld would stay. */
  readonly thinWeld: boolean;
}
